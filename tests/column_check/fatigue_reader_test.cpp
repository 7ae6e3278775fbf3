#include "column_check/service_reader.hpp"

#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

std::vector<FatigueStrength> read(const std::string& text) {
  Mapping root = Mapping::read_text("schema: 1\n" + text, "case.yaml");
  root.allow({"service_loads", "fatigue"});
  return read_fatigue(root);
}

/// Of the strength of a part with these lines.
std::string message_of(const std::string& strength, const std::string& part = "skin") {
  try {
    read("fatigue:\n  " + part + ": {" + strength + "}\n");
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

} // namespace

TEST_CASE("fatigue strengths are read in SI, the root's as force of one bolt; made-up numbers") {
  const std::vector<FatigueStrength> strengths =
      read("fatigue:\n"
           "  root: {amplitude: 3 kN, cycles: 2e6, slope: 4, mean_force_limit: 40 kN, surface: rolled thread}\n"
           "  skin:\n"
           "    amplitude: 55 MPa\n"
           "    cycles: 1e7\n"
           "    slope: 5\n"
           "    mean_stress_limit: 320 MPa\n"
           "    surface: as built\n"
           "    source: made up\n"
           "    standing: derived\n");
  REQUIRE(strengths.size() == 2);
  CHECK(strengths[0].of == "skin");
  CHECK(strengths[0].amplitude.value == Approx(55e6));
  CHECK(strengths[0].amplitude.source.text == "made up");
  CHECK(strengths[0].cycles.value == 1e7);
  CHECK(strengths[0].slope.value == 5);
  CHECK(strengths[0].mean_stress_limit.value == Approx(320e6));
  CHECK(strengths[0].surface == "as built");
  CHECK(strengths[1].of == "root");
  CHECK(strengths[1].amplitude.value == Approx(3000));
  CHECK(strengths[1].mean_stress_limit.value == Approx(40e3));
  CHECK(read("").empty());
  CHECK(read("fatigue: {lattice: {amplitude: 30 MPa, cycles: 1e6, slope: 3, surface: as built}}\n")
            .front()
            .mean_stress_limit.value == 0);
}

TEST_CASE("bad fatigue strengths are refused at their line") {
  CHECK(message_of("amplitude: 55 MPa, cycles: 1e7, slope: 5, mean_stress_limit: 32 MPa, surface: as built") ==
        "case.yaml:3:71: fatigue.skin.mean_stress_limit: the limit of the mean is not above the amplitude\n"
        "    3 |   skin: {amplitude: 55 MPa, cycles: 1e7, slope: 5, mean_stress_limit: 32 MPa, surface: as built}\n"
        "      |                                                                       ^\n"
        "   It is the ultimate strength; check both values and their units.");
  CHECK_THAT(message_of("amplitude: 55 MPa, cycles: 1e7, slope: 5"), Catch::Contains("surface"));
  CHECK_THAT(message_of("cycles: 1e7, slope: 5, surface: as built"), Catch::Contains("amplitude"));
  CHECK_THAT(message_of("amplitude: 55 MPa, cycles: 0, slope: 5, surface: as built"), Catch::Contains("cycles"));
  CHECK_THAT(message_of("amplitude: 55 MPa, cycles: 1e7, slope: -5, surface: as built"), Catch::Contains("slope"));
  CHECK_THAT(message_of("amplitude: 3 kN, cycles: 1e7, slope: 5, surface: as built"), Catch::Contains("stress"));
  CHECK_THAT(message_of("amplitude: 3 MPa, cycles: 1e7, slope: 5, surface: as built", "root"),
             Catch::Contains("force"));
  CHECK_THAT(
      message_of("amplitude: 3 kN, cycles: 1e7, slope: 5, mean_stress_limit: 9 MPa, surface: as built", "root"),
      Catch::Contains("mean_force_limit"));
  CHECK_THAT(message_of("amplitude: 55 MPa, cycles: 1e7, slope: 5, surface: as built", "weld"),
             Catch::Contains("skin, lattice, root"));
  CHECK_THAT(message_of("amplitude: {value: 55 MPa, low: 50 MPa}, cycles: 1e7, slope: 5, surface: as built"),
             Catch::Contains("carries a spread"));
}
