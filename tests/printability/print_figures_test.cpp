#include "crushwright/errors.hpp"
#include "printability/sample_subjects.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_subjects;

namespace {

/// A box 400 mm long of 100 mm by 120 mm with an octet of 12 mm inside a skin; the envelope must outlive it.
PrintSubject octet_box(const Envelope& envelope) {
  PrintSubject subject;
  subject.envelope = &envelope;
  subject.cell = &cell("octet");
  subject.cell_edge = 12e-3;
  subject.smallest_size = 1.2e-3;
  subject.largest_size = 1.5e-3;
  subject.skin_thickness = 0.8e-3;
  subject.root_plate = 6e-3;
  subject.volume = 720e-6;
  subject.mass = 1.92;
  subject.surface = 2.5;
  subject.density = 2670;
  return subject;
}

const Envelope part = box(0.4, 0.1, 0.12);

} // namespace

TEST_CASE("figures of a box with an octet, built with the attachment on the platform") {
  const PrintFigures figures = print_figures(octet_box(part), printing());
  CHECK(figures.share_of == "strut length");
  CHECK(figures.lattice.share() == Approx(1.0 / 3).margin(1e-12));
  CHECK(figures.longest_span == Approx(12e-3 * std::sqrt(0.5)).margin(1e-12));
  CHECK(figures.thinnest == 0.8e-3);
  CHECK(figures.thinnest_name == "skin");
  CHECK(figures.build_height == Approx(0.4).margin(1e-12));
  CHECK(figures.escape.opening == Approx(12e-3 / std::sqrt(6.0) - 1.5e-3).margin(1e-9));
  // The skin stands, the plate lies on the platform; no roof, because the struck end is open.
  CHECK(figures.overhang.outside == 0);
  CHECK(figures.overhang.inside == 0);
  CHECK(figures.overhang.on_platform == Approx(0.1 * 0.12).margin(1e-12));
  CHECK_FALSE(figures.fit_judged);
  CHECK(figures.pieces.size() == 1);
  CHECK(figures.faults.empty());
  CHECK_FALSE(figures.time.has_value());
}

TEST_CASE("a cell that lies turned hangs over as it lies") {
  // BCC with its body diagonal along the crush axis, built along that axis: three struts of four hang over.
  PrintSubject subject = octet_box(part);
  subject.cell = &cell("bcc");
  subject.axes = cell_axes("111");
  CHECK(print_figures(subject, printing()).lattice.share() == Approx(0.75).margin(1e-12));
  subject.axes = cell_axes("100");
  CHECK(print_figures(subject, printing()).lattice.share() == 1);
}

TEST_CASE("turning the lattice about the crush axis changes nothing for a build along it") {
  PrintSubject subject = octet_box(part);
  subject.cell = &cell("kelvin");
  const double before = print_figures(subject, printing()).lattice.share();
  subject.axes = cell_axes("100", 0.3);
  CHECK(print_figures(subject, printing()).lattice.share() == Approx(before).margin(1e-12));
}

TEST_CASE("skin and two printed plates trap the powder unless holes are stated") {
  PrintSubject subject = octet_box(part);
  subject.tip_plate = 2e-3;
  PrintingInput input = printing();
  CHECK(print_figures(subject, input).faults ==
        std::vector<std::string>{
            "Powder is trapped: skin and end plates enclose the powder and no escape_hole is stated."});
  CHECK(print_figures(subject, input).escape.opening == 0);
  input.escape_hole = value(3e-3);
  CHECK(print_figures(subject, input).escape.opening == 3e-3);
  input.escape_hole = value(8e-3);
  CHECK(print_figures(subject, input).escape.opening == Approx(12e-3 / std::sqrt(6.0) - 1.5e-3).margin(1e-9));
  input.escape_hole.reset();
  input.plates_printed = false;
  CHECK_FALSE(print_figures(subject, input).escape.closed);
}

TEST_CASE("plates close every tube of a honeycomb, and no hole elsewhere opens them") {
  PrintSubject subject = octet_box(part);
  subject.cell = &cell("honeycomb_uniform_wall");
  subject.axes = cell_axes("001");
  // Width across flats √3 l less one wall.
  CHECK(print_figures(subject, printing()).escape.opening == Approx(std::sqrt(3.0) * 12e-3 - 1.5e-3).margin(1e-12));
  subject.tip_plate = 2e-3;
  PrintingInput input = printing();
  input.escape_hole = value(8e-3);
  CHECK(print_figures(subject, input).escape.closed);
}

TEST_CASE("cells of closed boxes trap powder whatever is around them") {
  PrintSubject subject = octet_box(part);
  subject.cell = &cell("cubic_plate");
  CHECK(print_figures(subject, printing()).faults ==
        std::vector<std::string>{"Powder is trapped: the cell encloses powder on all sides."});
}

TEST_CASE("each of the machine's limits that is not kept is named with both values") {
  PrintingInput input = printing();
  input.machine.build_volume = {0.25, 0.25, 0.3};
  input.machine.smallest_feature = value(1e-3);
  input.machine.longest_span = value(2e-3);
  input.machine.smallest_opening = value(5e-3);
  CHECK(print_figures(octet_box(part), input).faults ==
        std::vector<std::string>{
            "Built along -x it does not fit the machine in one piece; 2 pieces of 200 mm length do, and without "
            "`joint` their joints are not in mass, time and cost.",
            "The way out for powder is 3.399 mm wide (the windows of the cell); 5 mm is needed.",
            "The thinnest feature, 0.8 mm (skin), is under the machine's smallest of 1 mm.",
            "The lattice spans 8.485 mm without support; the machine bridges 2 mm."});
}

TEST_CASE("a part that is too wide fits in no number of pieces and has no build to time") {
  PrintingInput input = printing();
  input.machine.build_volume = {0.08, 0.25, 0.5};
  input.rates = PrintRates{};
  input.rates->layer_thickness = value(50e-6);
  input.rates->recoat_time = value(9);
  input.rates->volume_rate = value(1e-8);
  const PrintFigures figures = print_figures(octet_box(part), input);
  CHECK(figures.pieces.empty());
  CHECK_FALSE(figures.time.has_value());
  CHECK(figures.build_height == Approx(0.4).margin(1e-12));
  CHECK(figures.faults ==
        std::vector<std::string>{"Built along -x it does not fit the machine, not even in 12 pieces."});
}

TEST_CASE("a joint weighs two flanges over its section and its bolts, and they are printed too") {
  PrintingInput input = printing();
  input.machine.build_volume = {0.25, 0.25, 0.3};
  input.joint = PrintJoint{value(4e-3), 8, value(0.012), value(9000)};
  input.rates = PrintRates{};
  input.rates->layer_thickness = value(50e-6);
  input.rates->recoat_time = value(9);
  input.rates->volume_rate = value(36e-6 / 3600);
  const PrintFigures figures = print_figures(octet_box(part), input);
  REQUIRE(figures.joints.size() == 1);
  CHECK(figures.joints[0].station == Approx(0.2).margin(1e-12));
  CHECK(figures.joints[0].mass == Approx(2 * 4e-3 * 0.012 * 2670 + 8 * 0.012).epsilon(1e-12));
  CHECK(figures.joints[0].capacity == Approx(72000).epsilon(1e-12));
  // 2 pieces of 4,000 layers of 9 s are 20 h; 720 cm³ and 96 cm³ of flanges at 36 cm³/h are 22 h 40 min.
  CHECK(*figures.time == Approx((20 + 816.0 / 36) * 3600).epsilon(1e-9));
  CHECK(figures.mass == Approx(1.92 + 96e-6 * 2670).epsilon(1e-12));
}

TEST_CASE("a lying box with a skin has a roof over its whole length") {
  const PrintFigures figures = print_figures(octet_box(part), printing({0, 0, 1}));
  CHECK(figures.overhang.inside == Approx(0.4 * 0.1).margin(1e-12));
  CHECK(figures.overhang.on_platform == Approx(0.4 * 0.1).margin(1e-12));
  CHECK(figures.build_height == Approx(0.12).margin(1e-12));
}

TEST_CASE("a foam is not printed: its body counts as skin and plates") {
  PrintSubject subject = octet_box(part);
  subject.cell = &cell("metal_foam_closed");
  const PrintFigures figures = print_figures(subject, printing());
  CHECK(figures.share_of.empty());
  CHECK(figures.lattice.share() == 0);
  CHECK(figures.escape.opening == Approx(0.1 - 2 * 0.8e-3).margin(1e-12));
}

TEST_CASE("directions read as axes or as vectors") {
  CHECK(direction_text({-1, 0, 0}) == "-x");
  CHECK(direction_text({0, 0, 1}) == "+z");
  CHECK(direction_text({std::sqrt(0.5), 0, -std::sqrt(0.5)}) == "(0.707, 0, -0.707)");
}
