#include "column_check/service_reader.hpp"

#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

Mapping root_of(const std::string& text) {
  Mapping root = Mapping::read_text("schema: 1\n" + text, "case.yaml");
  root.allow({"service_loads", "fatigue"});
  return root;
}

std::vector<ServiceLoad> read(const std::string& text) {
  return read_service_loads(root_of(text), {"left_cone", "right_cone"});
}

/// Of a load `tow` with these lines.
std::string message_of(const std::string& load) {
  try {
    read("service_loads:\n  tow: {" + load + "}\n");
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

} // namespace

TEST_CASE("service loads are read in SI, in file order, with 0 for what is left out and a factor of 1") {
  const std::vector<ServiceLoad> loads =
      read("service_loads:\n"
           "  towing: {of: left_cone, force: {x: -8 kN, y: 2 kN}, station: 10 mm, factor: 1.5}\n"
           "  kerb: {of: right_cone, acceleration: {z: 8 g}, carried_mass: 2.5 kg, station: 0 mm, cycles: 20000}\n"
           "  flow: {of: left_cone, pressure: 6 kPa, side: left, cycles: 1e6}\n"
           "  suction: {of: left_cone, pressure: -2 kPa, side: lower, alternating: true}\n");
  REQUIRE(loads.size() == 4);
  CHECK(loads[0].id == "towing");
  CHECK(loads[0].structure == "left_cone");
  CHECK(loads[0].force[0].value == Approx(-8000));
  CHECK(loads[0].force[1].value == Approx(2000));
  CHECK(loads[0].force[2].value == 0);
  CHECK(loads[0].station.value == Approx(0.01));
  CHECK(loads[0].station.path == "service_loads.towing.station");
  CHECK(loads[0].factor.value == 1.5);
  CHECK(loads[0].cycles == 0);
  CHECK(!loads[0].alternating);
  CHECK(loads[1].acceleration[2].value == Approx(8 * 9.80665));
  CHECK(loads[1].carried_mass.value == 2.5);
  CHECK(loads[1].factor.value == 1);
  CHECK(loads[1].cycles == 20000);
  CHECK(loads[1].alternating); // a kerb throws up and down
  CHECK(loads[2].pressure->value == Approx(6000));
  CHECK(loads[2].pressure_side == "left");
  CHECK(!loads[2].alternating);
  CHECK(loads[3].pressure->value == Approx(-2000));
  CHECK(loads[3].alternating);
}

TEST_CASE("a load of all structures comes once for each; a case without loads has none") {
  const std::vector<ServiceLoad> loads = read("service_loads: {kerb: {of: structures, acceleration: {z: 8 g}}}\n");
  REQUIRE(loads.size() == 2);
  CHECK(loads[0].structure == "left_cone");
  CHECK(loads[1].structure == "right_cone");
  CHECK(loads[1].id == "kerb");
  CHECK(read("").empty());
}

TEST_CASE("bad service loads are refused at their line") {
  CHECK(message_of("of: left_cone") == "case.yaml:3:3: service_loads.tow: nothing acts in this load\n"
                                       "    3 |   tow: {of: left_cone}\n"
                                       "      |   ^\n"
                                       "   Add `force`, `pressure` or `acceleration`.");
  CHECK(message_of("of: left_cone, force: 8 kN, station: 0 mm") ==
        "case.yaml:3:31: service_loads.tow.force: this has a direction: x (towards the attachment), y (to the left) "
        "and z (up) were expected\n"
        "    3 |   tow: {of: left_cone, force: 8 kN, station: 0 mm}\n"
        "      |                               ^\n"
        "   Write for instance `force: {x: -8 kN, y: 2 kN}`.");
  CHECK(message_of("of: left_cone, force: {x: 8 kN}") ==
        "case.yaml:3:24: service_loads.tow.force: the place where it acts is missing\n"
        "    3 |   tow: {of: left_cone, force: {x: 8 kN}}\n"
        "      |                        ^\n"
        "   Add `station:`, 0 mm at the struck end and growing to the attachment.");
  CHECK(message_of("of: left_cone, pressure: 6 kPa") ==
        "case.yaml:3:34: service_loads.tow.pressure: the side on which it acts is missing\n"
        "    3 |   tow: {of: left_cone, pressure: 6 kPa}\n"
        "      |                                  ^\n"
        "   Add `side:` with left, right, upper or lower.");
  CHECK(message_of("of: left_cone, acceleration: {z: 8 g}, side: left") ==
        "case.yaml:3:54: service_loads.tow.side: no `pressure` acts on that side\n"
        "    3 |   tow: {of: left_cone, acceleration: {z: 8 g}, side: left}\n"
        "      |                                                      ^\n"
        "   Add for instance `pressure: 5 kPa`, or delete the line.");
  CHECK(message_of("of: left_cone, pressure: 6 kPa, side: left, carried_mass: 2 kg, station: 0 mm") ==
        "case.yaml:3:67: service_loads.tow.carried_mass: a mass loads the structure only when it is accelerated\n"
        "    3 |   tow: {of: left_cone, pressure: 6 kPa, side: left, carried_mass: 2 kg, station: 0 mm}\n"
        "      |                                                                   ^\n"
        "   Add for instance `acceleration: {z: 8 g}`; a weight at rest is `acceleration: {z: 1 g}`.");
  CHECK(message_of("of: left_cone, pressure: 6 kPa, side: left, station: 0 mm") ==
        "case.yaml:3:62: service_loads.tow.station: neither a `force` nor a `carried_mass` acts at a station in this "
        "load\n"
        "    3 |   tow: {of: left_cone, pressure: 6 kPa, side: left, station: 0 mm}\n"
        "      |                                                              ^\n"
        "   Delete the line: pressure and acceleration act over the whole length.");
  CHECK(message_of("of: left_cone, force: {y: 0 N}, station: 0 mm") ==
        "case.yaml:3:24: service_loads.tow.force: all three parts are 0\n"
        "    3 |   tow: {of: left_cone, force: {y: 0 N}, station: 0 mm}\n"
        "      |                        ^\n"
        "   Give one that is not, or delete the line.");
}

TEST_CASE("unknown structures, keys and sides are refused with the nearest spelling; spreads and bad numbers too") {
  CHECK_THAT(message_of("of: left_kone, acceleration: {z: 8 g}"), Catch::Contains("left_cone"));
  CHECK_THAT(message_of("acceleration: {z: 8 g}"), Catch::Contains("service_loads.tow"));
  CHECK_THAT(message_of("of: left_cone, acceleration: {up: 8 g}"), Catch::Contains("x, y, z"));
  CHECK_THAT(message_of("of: left_cone, pressure: 6 kPa, side: outer"), Catch::Contains("left, right, upper"));
  CHECK_THAT(message_of("of: left_cone, pressure: 0 kPa, side: left"), Catch::Contains("a pressure of 0"));
  CHECK_THAT(message_of("of: left_cone, acceleration: {z: 8 g}, factor: 0.9"), Catch::Contains("factor"));
  CHECK_THAT(message_of("of: left_cone, acceleration: {z: 8 g}, cycles: 0"), Catch::Contains("cycles"));
  CHECK_THAT(message_of("of: left_cone, acceleration: {z: {value: 8 g, high: 9 g}}"),
             Catch::Contains("carries a spread"));
  CHECK_THAT(message_of("of: left_cone, acceleration: {z: 8 kN}"), Catch::Contains("acceleration"));
}

TEST_CASE("a load beyond the attachment is refused at its station") {
  const std::string text = "service_loads:\n  tow: {of: left_cone, force: {x: -8 kN}, station: 600 mm}\n";
  const Mapping root = root_of(text);
  const std::vector<ServiceLoad> loads = read_service_loads(root, {"left_cone", "right_cone"});
  CHECK_NOTHROW(check_service_stations(root, loads, "left_cone", 0.6));
  CHECK_NOTHROW(check_service_stations(root, loads, "right_cone", 0.5));
  CHECK_THROWS_WITH(
      check_service_stations(root, loads, "left_cone", 0.54),
      "case.yaml:3:52: service_loads.tow.station: the load acts beyond the attachment of left_cone, which is 540 mm "
      "long\n"
      "    3 |   tow: {of: left_cone, force: {x: -8 kN}, station: 600 mm}\n"
      "      |                                                    ^\n"
      "   Give a station from 0 mm, the struck end, to that length.");
}
