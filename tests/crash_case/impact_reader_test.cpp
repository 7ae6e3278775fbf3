#include "crash_case/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using namespace sample_case;

TEST_CASE("a case without impacts is refused") {
  CHECK(message(with("impacts:\n  full:", "impact:\n  full:")) ==
        "boxes.yaml:21:1: unknown key `impact` at the top level\n"
        "   21 | impact:\n"
        "      | ^\n"
        "   Did you mean `impacts`? Known keys: schema, title, description, vehicle, invented, service_temperature, "
        "structures, impacts, limits, scatter, size, compare, printing, service_loads, fatigue.\n"
        "   Correct the spelling or delete the line.");
}

TEST_CASE("a held body has no mass") {
  CHECK(message(with("held: true", "held: true, mass: 3 kg")) ==
        "boxes.yaml:23:43: impacts.full.striker.mass: a held body does not move, so its mass has no effect\n"
        "   23 |     striker: {id: wall, held: true, mass: 3 kg}\n"
        "      |                                           ^\n"
        "   Delete the mass, or delete `held: true`.");
}

TEST_CASE("a free body needs a mass") {
  CHECK(message(with("{id: car, mass: 900 kg}", "{id: car}")) ==
        "boxes.yaml:24:5: `mass` is missing in impacts.full.struck\n"
        "   24 |     struck: {id: car}\n"
        "      |     ^\n"
        "   Add a line, for instance `mass: 1180 kg`.");
}

TEST_CASE("two held bodies do not move") {
  CHECK(message(with("{id: car, mass: 900 kg}", "{id: car, held: true}")) ==
        "boxes.yaml:24:5: impacts.full.struck: both bodies are held, so nothing moves\n"
        "   24 |     struck: {id: car, held: true}\n"
        "      |     ^\n"
        "   Give one of them a mass instead of `held: true`.");
}

TEST_CASE("the two bodies have names of their own") {
  CHECK(message(with("{id: car, mass: 900 kg}", "{id: wall, mass: 900 kg}")) ==
        "boxes.yaml:24:5: impacts.full.struck: striker and struck are both called `wall`\n"
        "   24 |     struck: {id: wall, mass: 900 kg}\n"
        "      |     ^\n"
        "   Give them ids of their own.");
}

TEST_CASE("bodies close on each other") {
  CHECK(message(with("closing_speed: 9 m/s", "closing_speed: 0 m/s")) ==
        "boxes.yaml:25:20: impacts.full.closing_speed must be more than 0 km/h, not 0 m/s\n"
        "   25 |     closing_speed: 0 m/s\n"
        "      |                    ^\n"
        "   Correct the value or its unit.");
}

TEST_CASE("structures belong to one of the two bodies") {
  CHECK(message(with("closing_speed: 9 m/s", "closing_speed: 9 m/s\n    structures_on: strike")) ==
        "boxes.yaml:26:20: impacts.full.structures_on cannot be `strike`\n"
        "   26 |     structures_on: strike\n"
        "      |                    ^\n"
        "   Did you mean `striker`? Write one of: struck, striker.");
}

TEST_CASE("two structures share an impact as stated") {
  CHECK(message(with("    share: {left: 50 %, right: 50 %}\n", "")) ==
        "boxes.yaml:22:3: impacts.full: the impact does not say how the structures share it\n"
        "   22 |   full:\n"
        "      |   ^\n"
        "   Add `share: {left: 50 %, ...}`, whose shares sum to 100 %, or describe what meets them with `face: "
        "{...}`.");
  CHECK(message(with("share: {left: 50 %, right: 50 %}", "share: {left: 50 %, right: 40 %}")) ==
        "boxes.yaml:26:5: impacts.full.share: the shares sum to 90 %\n"
        "   26 |     share: {left: 50 %, right: 40 %}\n"
        "      |     ^\n"
        "   Make them sum to 100 %.");
  CHECK(message(with("share: {left: 50 %, right: 50 %}", "share: {left: 50 %, rihgt: 50 %}")) ==
        "boxes.yaml:26:25: unknown key `rihgt` in impacts.full.share\n"
        "   26 |     share: {left: 50 %, rihgt: 50 %}\n"
        "      |                         ^\n"
        "   Did you mean `right`? Known keys: left, right.\n"
        "   Correct the spelling or delete the line.");
  CHECK(message(with("share: {left: 50 %, right: 50 %}", "share: {left: {value: 50 %, low: 40 %}, right: 50 %}")) ==
        "boxes.yaml:26:13: impacts.full.share.left: a share is one value; it carries a spread, which nothing would "
        "use\n"
        "   26 |     share: {left: {value: 50 %, low: 40 %}, right: 5...\n"
        "      |             ^\n"
        "   Write a second impact with the other shares.");
}

TEST_CASE("a structure without a share takes no part in an impact") {
  const CrashCase crash_case = read();
  REQUIRE(crash_case.impacts.size() == 2);
  CHECK(crash_case.impacts[0].shares.size() == 2);
  REQUIRE(crash_case.impacts[1].shares.size() == 1);
  CHECK(crash_case.impacts[1].shares.front().structure == "left");
  CHECK(crash_case.impacts[1].shares.front().share == 1);
}

TEST_CASE("one structure alone takes the whole impact without saying so") {
  std::string one = with("    mirrored_as: right\n", "");
  for (const char* share : {"    share: {left: 50 %, right: 50 %}\n", "    share: {left: 100 %, right: 0 %}\n"})
    one.erase(one.find(share), std::string(share).size());
  const CrashCase crash_case = read(one);
  REQUIRE(crash_case.impacts.front().shares.size() == 1);
  CHECK(crash_case.impacts.front().shares.front().share == 1);
}

namespace {

const std::string share_line = "    share: {left: 50 %, right: 50 %}\n";
const std::string full_face = "    face: {shape: flat, width: 2500 mm, height: 800 mm, lower_edge: 175 mm}\n";

/// The first impact with a face in the place of its shares, on line 26, and more of it after that.
std::string faced(const std::string& more = "", const std::string& face = full_face) {
  return with(share_line, face + more);
}

} // namespace

TEST_CASE("a face takes the place of the shares, and all structures belong to its impact") {
  const CrashCase crash_case = read(faced("    force_angle: {value: 10 deg, low: 5 deg, high: 15 deg}\n"
                                          "    resolved: true\n"));
  const ImpactInput& impact = crash_case.impacts.front();
  REQUIRE(impact.face);
  CHECK(impact.face->width.value == Approx(2.5));
  CHECK(impact.shares.empty());
  CHECK(impact.force_angle.value == Approx(0.17453292519943295));
  CHECK(impact.force_angle.high_end() == Approx(1.5 * 0.17453292519943295));
  CHECK(impact.resolved);
  CHECK_FALSE(crash_case.impacts[1].face);
  CHECK_FALSE(crash_case.impacts[1].resolved);
  CHECK(crash_case.impacts[1].force_angle.value == 0);
  CHECK(crash_case.impacts[1].force_angle.dimension == Dimension::angle);
  // A limit may name the structure that the face meets.
  std::string limited = faced();
  limited += "  right_force: {impact: full, of: right, quantity: force, at_most: 90 kN}\n";
  CHECK(read(limited).limits.back().of == "right");
}

TEST_CASE("an impact says either what meets the structures or how they share it") {
  CHECK(message(with(share_line, full_face + share_line)) ==
        "boxes.yaml:27:5: impacts.full.share: with a `face` the places of the structures decide what each of them "
        "takes\n"
        "   27 |     share: {left: 50 %, right: 50 %}\n"
        "      |     ^\n"
        "   Keep one of the two.");
}

TEST_CASE("a body states where its middle is and how far its mass lies from it") {
  const CrashCase crash_case = read(
      with("struck: {id: car, mass: 900 kg}\n    closing_speed: 9 m/s\n" + share_line,
           "struck: {id: car, mass: 900 kg, lateral: -20 mm, yaw_radius: 1.25 m, rest_of_body: {stiffness: 12 kN/mm, "
           "capacity: 260 kN}}\n    closing_speed: 9 m/s\n" +
               full_face));
  const BodyInput& car = crash_case.impacts.front().struck;
  CHECK(car.lateral == Approx(-0.020));
  CHECK(car.yaw_radius->value == Approx(1.25));
  REQUIRE(car.rest);
  CHECK(car.rest->capacity.value == Approx(260e3));
  CHECK_FALSE(crash_case.impacts.front().striker.rest);
}

TEST_CASE("what lies behind all structures together needs them to move together") {
  CHECK(message(with("struck: {id: car, mass: 900 kg}",
                     "struck: {id: car, mass: 900 kg, rest_of_body: {stiffness: 12 kN/mm, capacity: 260 kN}}")) ==
        "boxes.yaml:24:37: impacts.full.struck.rest_of_body: stated shares cut the bodies apart between the "
        "structures, so nothing can stand behind them together\n"
        "   24 |     struck: {id: car, mass: 900 kg, rest_of_body: {stiffness: 12 kN/mm, capa...\n"
        "      |                                     ^\n"
        "   Describe what meets the structures with `face: {...}` in place of `share`, or delete the block.");
  // One structure that takes all is not cut.
  std::string one_side = sample_case::text;
  const std::string car = "struck: {id: car, mass: 900 kg}";
  one_side.replace(one_side.rfind(car), car.size(),
                   "struck: {id: car, mass: 900 kg, rest_of_body: {stiffness: 12 kN/mm, capacity: 260 kN}}");
  CHECK(read(one_side).impacts[1].struck.rest);
}

TEST_CASE("what belongs to the body with the structures is refused on the other") {
  const std::string other =
      faced("", full_face)
          .replace(faced().find("{id: wall, held: true}"), 22,
                   "{id: sled, mass: 500 kg, rest_of_body: {stiffness: 12 kN/mm, capacity: 90 kN}}");
  CHECK(message(other) ==
        "boxes.yaml:23:39: impacts.full.striker.rest_of_body: it belongs to the body that carries the structures, "
        "`struck`\n"
        "   23 |     striker: {id: sled, mass: 500 kg, rest_of_body: {stiffness: 12 kN/mm, capa...\n"
        "      |                                       ^\n"
        "   Move it there, or state `structures_on: striker`.");
  CHECK(
      message(with("{id: car, mass: 900 kg}", "{id: car, mass: 900 kg, yaw_radius: 1.2 m}")) ==
      "boxes.yaml:24:49: impacts.full.struck.yaw_radius: only a `face` tells where the force acts, so nothing would "
      "use it\n"
      "   24 |     struck: {id: car, mass: 900 kg, yaw_radius: 1.2 m}\n"
      "      |                                                 ^\n"
      "   Describe what meets the structures with `face: {...}`, or delete the line.");
  CHECK(message(with("{id: wall, held: true}", "{id: wall, held: true, lateral: 3 mm}")) ==
        "boxes.yaml:23:46: impacts.full.striker.lateral: a held body does not turn\n"
        "   23 |     striker: {id: wall, held: true, lateral: 3 mm}\n"
        "      |                                              ^\n"
        "   Delete the line, or delete `held: true`.");
}

TEST_CASE("a force is oblique by 30 degrees at most") {
  CHECK(read(with("closing_speed: 9 m/s", "closing_speed: 9 m/s\n    force_angle: 30 deg"))
            .impacts[0]
            .force_angle.value == Approx(0.5235987755982988));
  CHECK(message(with("closing_speed: 9 m/s", "closing_speed: 9 m/s\n    force_angle: 31 deg")) ==
        "boxes.yaml:26:18: impacts.full.force_angle must be at least 0 \u00b0 and at most 30 \u00b0, not 31 deg\n"
        "   26 |     force_angle: 31 deg\n"
        "      |                  ^\n"
        "   Correct the value or its unit.");
}
