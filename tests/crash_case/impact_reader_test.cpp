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
        "structures, impacts, limits, scatter, size, compare, printing.\n"
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
        "   Add `share: {left: 50 %, ...}`; the shares sum to 100 %.");
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
