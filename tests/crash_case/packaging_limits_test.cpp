#include "crash_case/sample_case.hpp"
#include "crushwright/errors.hpp"

#include "envelope/case_folder.hpp"
#include "surface/made_surfaces.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using case_folder::CaseFolder;
namespace made = crushwright::made_surfaces;

namespace {

/// The sample with a packaging block on line 14 and one limit on line 34.
std::string packaged(const std::string& packaging, const std::string& limit) {
  std::string text = sample_case::with_limit(limit);
  const std::string lattice = "    lattice:\n";
  return text.insert(text.find(lattice), "    packaging: " + packaging + "\n");
}

const std::string tank =
    "{flow_faces: [lower], keep_out: {tank: {from: [0 mm, 80 mm, 0 mm], to: [90 mm, 99 mm, 9 mm], "
    "clearance: 5 mm}}}";

} // namespace

TEST_CASE("limits on room name a structure, one of its keep-outs, or all structures") {
  const CrashCase one = sample_case::read(packaged(tank, "{of: left.tank, quantity: clearance, at_least: 5 mm}"));
  REQUIRE(one.limits.size() == 1);
  CHECK(one.limits[0].impact.empty());
  CHECK(one.limits[0].of == "left.tank");
  CHECK(describe(one.limits[0]) == "clearance of left.tank");
  // One for each impact that strikes it.
  const CrashCase after =
      sample_case::read(packaged(tank, "{of: left.tank, quantity: clearance_after_crush, at_least: 5 mm}"));
  REQUIRE(after.limits.size() == 2);
  CHECK(after.limits[0].impact == "full");
  CHECK(after.limits[1].impact == "one_side");
  CHECK(describe(after.limits[0]) == "clearance after crush of left.tank");
  const CrashCase ramp = sample_case::read(packaged(tank, "{quantity: ramp_angle, at_most: 11 deg}"));
  REQUIRE(ramp.limits.size() == 1);
  CHECK(ramp.limits[0].of == "structures");
  CHECK(ramp.limits[0].value.value == Approx(11 * 3.14159265358979 / 180));
  CHECK(describe(ramp.limits[0]) == "ramp angle of structures");
}

TEST_CASE("a limit on room that nothing states is refused") {
  CHECK(sample_case::message(sample_case::with_limit("{of: left, quantity: clearance, at_least: 5 mm}")) ==
        "boxes.yaml:33:30: limits.peak.quantity: clearance needs a structure with a keep-out, and there is none\n"
        "   33 |   peak: {of: left, quantity: clearance, at_least: 5 mm}\n"
        "      |                              ^\n"
        "   Add `packaging: {keep_out: {...}}` to a structure, or delete this limit.");
  CHECK(sample_case::message(sample_case::with_limit("{of: left, quantity: ramp_angle, at_most: 9 deg}")) ==
        "boxes.yaml:33:30: limits.peak.quantity: ramp_angle needs a structure with flow faces, and there is none\n"
        "   33 |   peak: {of: left, quantity: ramp_angle, at_most: 9 deg}\n"
        "      |                              ^\n"
        "   Add for instance `packaging: {flow_faces: [lower]}` to a structure, or delete this limit.");
  CHECK(sample_case::message(packaged(tank, "{of: left.tnk, quantity: clearance, at_least: 5 mm}")) ==
        "boxes.yaml:34:14: limits.peak.of: clearance of `left.tnk` cannot be limited\n"
        "   34 |   peak: {of: left.tnk, quantity: clearance, at_least:...\n"
        "      |              ^\n"
        "   Did you mean `left.tank`? Write one of: left, left.tank, right, right.tank, structures.");
}

TEST_CASE("a structure from a surface is mirrored with its surface, and cut as often as it has layers") {
  const CaseFolder folder("mirrored_case");
  folder.write_surface("flank.ply", made::tapered_cone({}, 20, 4));
  std::string text = sample_case::text;
  const std::size_t from = text.find("    sections:"), to = text.find("    parts:");
  text.replace(from, to - from, "    surface: {file: flank.ply, unit: mm, crush_axis: +x}\n    layers: 20\n");
  const CrashCase read = read_case_text(text, folder.case_file());
  REQUIRE(read.structures.size() == 2);
  const Envelope& left = read.structures[0].envelope;
  const Envelope& right = read.structures[1].envelope;
  CHECK(left.sections.size() == 41);
  CHECK(left.length() == Approx(0.52));
  CHECK(right.sections[20].figure.centroid[0] == -left.sections[20].figure.centroid[0]);
  CHECK(volume_of(*right.surface) == Approx(volume_of(*left.surface)));
  // Drawn in the car's own y, it needs no `at`; astride the middle it has no mirror.
  const std::string place = "    at: {y: 400 mm, z: 300 mm}\n";
  const std::string unplaced = text.erase(text.find(place), place.size());
  CHECK(read_case_text(unplaced, folder.case_file()).structures[1].lateral == 0);
  TriangleMesh middle = made::box({0, -0.05, 0}, {0.4, 0.05, 0.1});
  folder.write_surface("flank.ply", middle);
  try {
    read_case_text(unplaced, folder.case_file());
    FAIL("a structure is its own mirror");
  } catch (const InputError& error) {
    CHECK(std::string(error.what()).find("`right` would lie on left itself") != std::string::npos);
  }
}
