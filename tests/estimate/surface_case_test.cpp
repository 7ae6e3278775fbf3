#include "crushwright/errors.hpp"
#include "envelope/case_folder.hpp"
#include "estimate/sample_cases.hpp"
#include "surface/made_surfaces.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <iterator>

using namespace crushwright;
using case_folder::CaseFolder;
namespace made = crushwright::made_surfaces;

namespace {

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// The demo case with a line in place of its typed sections.
std::string demo_with(const std::string& shape) {
  std::string text = bytes_of(std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "cases/twin_rear_cones.yaml");
  const std::size_t from = text.find("    sections:"), to = text.find("    parts:");
  REQUIRE(from < to);
  return text.replace(from, to - from, shape);
}

/// A demo-like cone as surface: with its lattice, its skin and what else is asked.
std::string cone_text(const std::string& shape, const std::string& more = "") {
  return "schema: 1\ntitle: a cone from a surface\nstructures:\n  cone:\n" + shape +
         "    lattice: {cell: kelvin, material: AlSi10Mg-stress-relieved, cell_edge: 12 mm, strut: 1.6 mm}\n" + more +
         "impacts:\n" + sample_cases::drop();
}

} // namespace

TEST_CASE("the demo case's surface and its typed sections give the same verdict within 1 %") {
  const CaseFolder folder("demo_surface");
  const CrashCase typed_case = sample_cases::shipped_case("twin_rear_cones");
  folder.write_surface("cone.stl", surface_of(typed_case.structures.front().envelope));
  const CrashCase surface_case = read_case_text(
      demo_with("    surface: {file: cone.stl, unit: mm, crush_axis: +x, up: +z}\n"), folder.case_file());
  const Estimate typed = estimate(typed_case, sample_cases::catalogue());
  const Estimate sliced = estimate(surface_case, sample_cases::catalogue());
  CHECK(sliced.deciding.verdict.word == typed.deciding.verdict.word);
  REQUIRE(sliced.deciding.verdict.checks.size() == typed.deciding.verdict.checks.size());
  const auto same = [](const std::optional<double>& a, const std::optional<double>& b) {
    REQUIRE(a.has_value() == b.has_value());
    if (a)
      CHECK(*a == Approx(*b).epsilon(0.01).margin(1e-6));
  };
  for (std::size_t i = 0; i < typed.deciding.verdict.checks.size(); ++i) {
    const Check& a = sliced.deciding.verdict.checks[i];
    const Check& b = typed.deciding.verdict.checks[i];
    INFO(b.limit.id << " of " << b.limit.of << " in " << b.limit.impact);
    CHECK(a.word == b.word);
    same(a.combined.weak, b.combined.weak);
    same(a.combined.nominal, b.combined.nominal);
    same(a.combined.strong, b.combined.strong);
    same(a.stacked.weak, b.stacked.weak);
    same(a.stacked.strong, b.stacked.strong);
  }
  for (std::size_t i = 0; i < typed.structures.size(); ++i) {
    CHECK(sliced.structures[i].mass.total == Approx(typed.structures[i].mass.total).epsilon(0.01));
    CHECK(sliced.structures[i].lattice_share == Approx(typed.structures[i].lattice_share).epsilon(0.01));
  }
}

TEST_CASE("a body whose tip comes to a point is estimated without a skin, and refused with one that cannot fold") {
  const CaseFolder folder("pointed");
  TriangleMesh cone = made::cone(0.07, 0.3, 40); // its apex at 300 mm
  folder.write_surface("cone.ply", cone);
  const std::string shape = "    surface: {file: cone.ply, unit: mm, crush_axis: -x}\n";
  const Estimate bare = estimate(read_case_text(cone_text(shape), folder.case_file()), sample_cases::catalogue());
  CHECK(bare.structures[0].layers.front().lattice_force > 0);
  CHECK(bare.structures[0].layers.front().lattice_force < 1e-3 * bare.structures[0].layers.back().lattice_force);
  try {
    estimate(read_case_text(cone_text(shape, sample_cases::skin), folder.case_file()), sample_cases::catalogue());
    FAIL("a skin folds about a point");
  } catch (const InputError& error) {
    const std::string message = error.what();
    CHECK(message.find("is too thick to fold") != std::string::npos);
    CHECK(message.find("cut a pointed end of the surface flat") != std::string::npos);
  }
}

TEST_CASE("the warnings tell of an opening in the surface and of a line of centroids that leans") {
  const CaseFolder folder("leaning");
  TriangleMesh lying = made::torus(0.10, 0.05, 60);
  for (auto& point : lying.points)
    point = {point[2], point[0], point[1]};
  folder.write_surface("ring.ply", lying);
  const Estimate ring = estimate(
      read_case_text(cone_text("    surface: {file: ring.ply, unit: mm, crush_axis: +x}\n"), folder.case_file()),
      sample_cases::catalogue());
  CHECK(
      std::count(ring.warnings.begin(), ring.warnings.end(),
                 "cone: the surface has an opening inside its outline between 0 mm and 100 mm. The skin is taken to "
                 "line it too: both outlines and their corners are added and fold as one wall.") == 1);
  TriangleMesh prism = made::box({0, 0, 0}, {0.4, 0.12, 0.12});
  for (auto& point : prism.points)
    point[1] += 0.2 * point[0]; // 11.3 degrees
  folder.write_surface("prism.ply", prism);
  const Estimate leaning = estimate(
      read_case_text(cone_text("    surface: {file: prism.ply, unit: mm, crush_axis: +x}\n"), folder.case_file()),
      sample_cases::catalogue());
  CHECK(std::any_of(leaning.warnings.begin(), leaning.warnings.end(), [](const std::string& warning) {
    return warning.rfind(
               "cone: the line of its centroids leans 11.3 ° to the crush axis, up to 11.3 ° about station ", 0) == 0;
  }));
}

TEST_CASE("clearance after the crush is that of each side, and the report and its limit agree") {
  const auto text = [](const std::string& limits) {
    return sample_cases::case_text(
        sample_cases::cone("cone", "{tip: 1.6 mm, root: 1.8 mm}",
                           "    packaging: {keep_out: {tank: {from: [190 mm, 60 mm, -20 mm], to: [390 mm, 90 mm, 20 "
                           "mm], clearance: 4 mm}}}\n"),
        sample_cases::drop(), limits);
  };
  const std::string limits = "  room: {of: cone.tank, quantity: clearance_after_crush, at_least: 4 mm}\n"
                             "  room_before: {of: cone, quantity: clearance, at_least: 4 mm}\n"
                             "  used: {quantity: crush, at_most: 390 mm}\n";
  const CrashCase crash_case = read_case_text(text(limits), "test.yaml");
  const Estimate result = estimate(crash_case, sample_cases::catalogue());
  const Check& room = sample_cases::check_named(result.deciding, "room");
  const Check& used = sample_cases::check_named(result.deciding, "used");
  const auto& sides = result.deciding.impacts[0].sides;
  REQUIRE(sides[1].structures[0].clearances.size() == 1);
  CHECK(*room.combined.nominal == Approx(sides[1].structures[0].clearances[0].value).epsilon(1e-12));
  CHECK(*room.combined.weak == Approx(sides[0].structures[0].clearances[0].value).epsilon(1e-12));
  CHECK(*room.combined.strong == Approx(sides[2].structures[0].clearances[0].value).epsilon(1e-12));
  // The striker's plane stands at the crush: ahead of it lies the tank, which begins at 190 mm.
  const double striker_gap = 0.190 - *used.combined.weak;
  CHECK(*room.combined.weak <= striker_gap + 1e-12);
  const Check& before = sample_cases::check_named(result.deciding, "room_before");
  CHECK(*before.combined.weak == *before.combined.strong);
  // The side's half-width at the tank's far end, 390 mm, is 54.6 mm; square to the slanting side.
  CHECK(*before.combined.nominal == Approx((0.060 - 0.054625) * std::cos(std::atan(0.015 / 0.4))).epsilon(1e-9));
}

TEST_CASE("the shipped surface is the one that its definition makes") {
  // Of the case outlet_flanks: rounded rectangles on a bowed line, 52 steps, 7 points on every corner.
  const TriangleMesh made = made::tapered_cone({}, 52, 7);
  CHECK(bytes_of(std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "cases/surfaces/outlet_flank.ply") ==
        write_ply(made, 1000, "invented for the case outlet_flanks, lengths in mm"));
  const CrashCase read = sample_cases::shipped_case("outlet_flanks");
  const Envelope& left = read.structures[0].envelope;
  CHECK(left.length() == Approx(0.52));
  CHECK(volume_of(left) == Approx(volume_of(made)).epsilon(1e-3));
  // Sizes of the definition: 90 x 110 mm with 20 mm corners at the tip, 150 x 190 mm with 30 mm at the root.
  const double pi = 3.14159265358979;
  CHECK(properties_of(left.sections.front()).area == Approx(0.090 * 0.110 - (4 - pi) * 0.020 * 0.020).epsilon(2e-3));
  CHECK(properties_of(left.sections.back()).area == Approx(0.150 * 0.190 - (4 - pi) * 0.030 * 0.030).epsilon(2e-3));
  for (const Section& section : left.sections)
    CHECK(properties_of(section).corner_count == 4);
}
