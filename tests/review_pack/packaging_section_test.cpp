#include "envelope/case_folder.hpp"
#include "estimate/sample_cases.hpp"
#include "review_pack/packaging_words.hpp"
#include "review_pack/page.hpp"
#include "review_pack/verdict_text.hpp"
#include "surface/made_surfaces.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

const std::string room =
    "    at: {y: 400 mm}\n"
    "    packaging:\n"
    "      flow_faces: [lower, outer]\n"
    "      ramp_length: 50 mm\n"
    "      keep_out:\n"
    "        tank: {from: [190 mm, 60 mm, -20 mm], to: [390 mm, 90 mm, 20 mm], clearance: 6 mm}\n"
    "        rail: {from: [399 mm, -90 mm, -20 mm], to: [420 mm, 90 mm, 20 mm], clearance: 1 mm}\n";

CrashCase packaged_case() {
  return sample_cases::case_of(sample_cases::cone("cone", "1.6 mm", room), sample_cases::drop());
}

std::string section_of(const CrashCase& crash_case, const Estimate& estimate) {
  return packaging_section({crash_case, estimate, {}, {}, {}, {}, {}});
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("the page shows sizes, ramps with a drawing, and clearances before and after the crush") {
  const CrashCase crash_case = packaged_case();
  const Estimate result = estimate(crash_case, sample_cases::catalogue());
  const std::string html = section_of(crash_case, result);
  CHECK(holds(html, "400.0 mm × 110.0 mm × 140.0 mm"));
  // The prismatoid 80 × 100, 95 × 120, 110 × 140 mm, 400 mm long: 4.600 L; without a skin the lattice fills it.
  CHECK(holds(html, "4.60 L"));
  // Half of 40 mm and half of 30 mm over 400 mm.
  CHECK(holds(html, "2.9 °"));
  CHECK(holds(html, "2.1 °"));
  CHECK(holds(html, "<svg class=\"drawing\""));
  CHECK(holds(html, "How far the lower face of cone reaches from the axis, to scale"));
  CHECK(holds(html, ">tank<"));
  CHECK(holds(html, "5.4 mm"));
  CHECK(holds(html, "-1.0 mm, inside"));
  CHECK(holds(html, "drop"));
}

TEST_CASE("the terminal names every flow face and keep-out in a line of its own") {
  const CrashCase crash_case = packaged_case();
  const Estimate result = estimate(crash_case, sample_cases::catalogue());
  const auto lines = packaging_lines(result, result.structures[0]);
  REQUIRE(lines.size() == 4);
  CHECK(lines[0] == "lower face of cone: ramp of 2.9 ° at its steepest over 50.0 mm, from station 0.0 mm (warned of "
                    "beyond 11.0 °)");
  CHECK(lines[2].rfind("keep-out tank of cone: 5.4 mm before the crush (asked 6.0 mm); ", 0) == 0);
  CHECK(holds(lines[2], " after it (asked 6.0 mm; drop, weak side)"));
  const std::string text = verdict_text(crash_case, result);
  CHECK(holds(text, "\nPackaging\n"));
  // What falls short is a warning too, with its place.
  // Along its upright edge at 390 mm the tank is equally near at every height.
  CHECK(std::any_of(result.warnings.begin(), result.warnings.end(), [](const std::string& warning) {
    return warning.rfind("cone: it stands 5.371 mm from the keep-out tank before the crush, where 6 mm are asked; "
                         "nearest at station 390.0 mm, y 60.0 mm, z ",
                         0) == 0;
  }));
}

TEST_CASE("a case without room to show has no such section, and one from a surface shows its shape") {
  const CrashCase plain = sample_cases::case_of(sample_cases::cone("cone"), sample_cases::drop());
  CHECK(section_of(plain, estimate(plain, sample_cases::catalogue())).empty());
  const case_folder::CaseFolder folder("shown_surface");
  TriangleMesh prism = made_surfaces::box({0, 0, 0}, {0.4, 0.12, 0.12});
  for (auto& point : prism.points)
    point[2] += 0.1 * point[0]; // 5.7 degrees
  folder.write_surface("a<b.ply", prism);
  const std::string lattice =
      "    lattice: {cell: kelvin, material: AlSi10Mg-stress-relieved, cell_edge: 12 mm, strut: 1.6 mm}\n";
  const CrashCase drawn = read_case_text(
      sample_cases::case_text("  leaning:\n    surface: {file: \"a<b.ply\", unit: mm, crush_axis: +x}\n" + lattice,
                              sample_cases::drop()),
      folder.case_file());
  const std::string html = section_of(drawn, estimate(drawn, sample_cases::catalogue()));
  CHECK(holds(html, "a&lt;b.ply, 12 triangles"));
  CHECK(holds(html, "5.7 ° on the whole, 5.7 ° at its steepest"));
}
