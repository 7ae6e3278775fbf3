#include "column_check/bolt_reader.hpp"

#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;

namespace {

std::optional<BoltPattern> read(const std::string& lines) {
  Mapping attachment = Mapping::read_text("schema: 1\n" + lines, "case.yaml");
  attachment.allow({"bolts"});
  return read_bolts(attachment);
}

std::string message_of(const std::string& bolts) {
  try {
    read("bolts: {" + bolts + "}\n");
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

using Catch::Contains;

} // namespace

TEST_CASE("bolts are read by their places, in SI") {
  const auto bolts = read("bolts:\n"
                          "  places: [{y: 40 mm, z: 50 mm}, {y: -40 mm, z: 50 mm}, {y: 0 mm, z: -50 mm}]\n"
                          "  proof_load: 22 kN\n  shear_load: 15 kN\n  preload: 12 kN\n");
  REQUIRE(bolts);
  REQUIRE(bolts->places.size() == 3);
  CHECK(bolts->places[1][0] == Approx(-0.04));
  CHECK(bolts->places[2][1] == Approx(-0.05));
  CHECK(bolts->proof_load.value == Approx(22e3));
  REQUIRE(bolts->shear_load);
  CHECK(bolts->shear_load->value == Approx(15e3));
  CHECK(bolts->preload.value == Approx(12e3));
}

TEST_CASE("bolts on a circle are spaced evenly about the section's centroid") {
  const auto bolts = read("bolts: {circle: {count: 6, diameter: 140 mm}, proof_load: 22 kN}\n");
  REQUIRE(bolts);
  REQUIRE(bolts->places.size() == 6);
  double y = 0, z = 0;
  for (const auto& place : bolts->places) {
    CHECK(std::hypot(place[0], place[1]) == Approx(0.07));
    y += place[0];
    z += place[1];
  }
  CHECK(y == Approx(0).margin(1e-12));
  CHECK(z == Approx(0).margin(1e-12));
  CHECK_FALSE(bolts->shear_load);
  CHECK(bolts->preload.value == 0);
}

TEST_CASE("an attachment without bolts has none") {
  CHECK_FALSE(read(""));
}

TEST_CASE("a pattern that cannot be meant is refused with what to do") {
  CHECK_THAT(message_of("proof_load: 22 kN"), Contains("where the bolts are is missing"));
  CHECK_THAT(message_of("places: [{y: 0 mm, z: 1 mm}], circle: {count: 4, diameter: 9 mm}, proof_load: 22 kN"),
             Contains("both say"));
  CHECK_THAT(message_of("places: [{y: 0 mm, z: -40 mm}, {y: 0 mm, z: 0 mm}, {y: 0 mm, z: 40 mm}], proof_load: 1 kN"),
             Contains("3 bolts in one row") && Contains("case.yaml:2"));
  CHECK_THAT(message_of("circle: {count: 2, diameter: 90 mm}, proof_load: 1 kN"), Contains("count"));
  CHECK_THAT(message_of("circle: {count: 6, diameter: 90 mm}"), Contains("proof_load"));
  CHECK_THAT(message_of("circle: {count: 6, diameter: 90 mm}, proof_load: 9 kN, preload: 12 kN"),
             Contains("above the proof load"));
  CHECK_THAT(message_of("circle: {count: 6, diameter: 90 mm}, proof_load: {value: 9 kN, low: 8 kN}"),
             Contains("spread"));
}
