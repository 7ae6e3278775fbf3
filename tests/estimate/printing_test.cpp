#include "estimate/sample_cases.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_cases;

namespace {

const std::string machine = "printing:\n"
                            "  build_direction: \"-x\"\n"
                            "  machine: {build_volume: [250 mm, 250 mm, 300 mm], smallest_feature: 0.4 mm}\n";
const std::string rates = "  rates: {layer_thickness: 50 um, recoat_time: 9 s, volume_rate: 36 cm^3/h,\n"
                          "          currency: crowns, cost_per_hour: 40, cost_per_kg: 60}\n";
const std::string joint = "  joint: {flange_thickness: 4 mm, bolts: 8, bolt_mass: 12 g, bolt_capacity: 9 kN}\n";

} // namespace

TEST_CASE("without the block no structure has printability figures") {
  const Estimate plain = estimate_of(cone("left"), drop());
  CHECK_FALSE(plain.structures.front().printing.has_value());
  CHECK_FALSE(plain.structures.front().print_direction.has_value());
  CHECK(plain.structures.front().mass.joints == 0);
}

TEST_CASE("the metal to melt is lattice and skin, and its time and cost follow from the rates") {
  const Estimate printed = estimate_of(cone("left", "1.6 mm", skin), drop(), "", machine + rates);
  const StructureModel& structure = printed.structures.front();
  const PrintFigures& figures = *structure.printing;
  CHECK(figures.mass == Approx(structure.mass.lattice + structure.mass.skin).epsilon(1e-12));
  // 400 mm do not fit 300 mm: two pieces of 4,000 layers.
  REQUIRE(figures.pieces.size() == 2);
  CHECK(*figures.time == Approx(2 * 4000 * 9 + figures.volume / (36e-6 / 3600)).epsilon(1e-9));
  CHECK(*figures.cost == Approx(*figures.time / 3600 * 40 + figures.mass * 60).epsilon(1e-9));
  CHECK(structure.mass.joints == 0);
}

TEST_CASE("joints of a split part count in its mass and stand beside the force of their section") {
  const Estimate whole = estimate_of(cone("left", "1.6 mm", skin), drop(), "", machine + rates);
  const Estimate split = estimate_of(cone("left", "1.6 mm", skin), drop(), "", machine + rates + joint);
  const StructureModel& structure = split.structures.front();
  REQUIRE(structure.printing->joints.size() == 1);
  // Half way: 95 mm by 120 mm; two flanges of 4 mm and eight bolts.
  const double density = catalogue().material("AlSi10Mg-stress-relieved").density->value;
  CHECK(structure.mass.joints == Approx(2 * 4e-3 * 0.095 * 0.12 * density + 8 * 0.012).epsilon(1e-9));
  CHECK(structure.mass.total == Approx(whole.structures.front().mass.total + structure.mass.joints).epsilon(1e-12));
  const double force = structure.printing->joints.front().crush_force;
  CHECK(force > structure.layers.front().collapse_force());
  CHECK(force < structure.layers.back().collapse_force());
}

TEST_CASE("limits on printing are judged, and times add up over the structures") {
  const std::string limits = "  hours: {quantity: build_time, at_most: 1000 h}\n"
                             "  tall: {quantity: build_height, at_most: 250 mm}\n"
                             "  pieces: {quantity: build_pieces, at_most: 1}\n";
  const std::string twins = cone("left", "1.6 mm", "    at: {y: 300 mm}\n    mirrored_as: right\n");
  const std::string both = "  drop:\n    striker: {id: mass, mass: 300 kg}\n    struck: {id: rig, held: true}\n"
                           "    closing_speed: 7 m/s\n    share: {left: 50 %, right: 50 %}\n";
  const Estimate two = estimate_of(twins, both, limits, machine + rates);
  const Estimate one = estimate_of(cone("left", "1.6 mm"), drop(), limits, machine + rates);
  CHECK(*check_named(two.deciding, "hours").combined.nominal ==
        Approx(2 * *check_named(one.deciding, "hours").combined.nominal).epsilon(1e-12));
  CHECK(check_named(two.deciding, "tall").word == Word::pass);
  CHECK(*check_named(two.deciding, "tall").combined.nominal == Approx(0.2).epsilon(1e-9));
  CHECK(check_named(two.deciding, "pieces").word == Word::fail);
}

TEST_CASE("a part that fits the machine in no number of pieces leaves its time open") {
  const std::string narrow =
      "printing:\n  build_direction: \"-x\"\n  machine: {build_volume: [60 mm, 60 mm, 900 mm]}\n";
  const Estimate open =
      estimate_of(cone("left"), drop(), "  hours: {quantity: build_time, at_most: 10 h}\n", narrow + rates);
  const Check& check = check_named(open.deciding, "hours");
  CHECK(check.word == Word::open);
  CHECK(check.note == "the part does not fit the machine in any number of pieces tried");
}

TEST_CASE("the surface that the contour traces is that of the struts, by the slope of the density") {
  // Thin struts: surface π d L, volume π d² L / 4, so surface over volume is 4 / d but for the nodes.
  const std::string thin = cone("left", "0.4 mm");
  const std::string traced = "  rates: {layer_thickness: 50 um, recoat_time: 0 s, volume_rate: 3600000 cm^3/h,\n"
                             "          contour_rate: 3600 cm^2/h}\n";
  const Estimate printed =
      estimate_of(thin, drop(), "", "printing:\n  build_direction: \"-x\"\n  machine: {}\n" + traced);
  const PrintFigures& figures = *printed.structures.front().printing;
  CHECK(*figures.time * 1e-4 == Approx(4 / 0.4e-3 * figures.volume).epsilon(0.05));
}

TEST_CASE("a warning names what the machine cannot do") {
  const Estimate printed = estimate_of(cone("left", "0.8 mm"), drop(), "",
                                       "printing:\n  build_direction: \"-x\"\n  machine: {smallest_feature: 1 mm}\n");
  CHECK(std::count(printed.warnings.begin(), printed.warnings.end(),
                   "left: The thinnest feature, 0.8 mm (strut diameter), is under the machine's smallest of 1 mm.") ==
        1);
}

TEST_CASE("an estimate says which build direction has least trouble") {
  const Estimate printed = estimate_of(cone("left"), drop(), "", machine);
  const BestDirection& best = *printed.structures.front().print_direction;
  CHECK(best.tried > 290);
  CHECK(best.trouble.unsupported <= printed.structures.front().printing->lattice.share());
}
