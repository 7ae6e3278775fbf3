#include "crash_case/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using namespace sample_case;

TEST_CASE("the level of the combined scatter is one-sided and not certain") {
  CHECK(message(std::string(text) + "scatter: {level: 40 %}\n") ==
        "boxes.yaml:34:18: scatter.level must be at least 50 % and at most 99.99 %, not 40 %\n"
        "   34 | scatter: {level: 40 %}\n"
        "      |                  ^\n"
        "   Correct the value or its unit.");
}

TEST_CASE("the deciding set is one of the case") {
  CHECK(message(std::string(text) + "scatter: {decide_with: coupons}\n") ==
        "boxes.yaml:34:24: scatter.decide_with cannot be `coupons`\n"
        "   34 | scatter: {decide_with: coupons}\n"
        "      |                        ^\n"
        "   Write one of: handbook.");
}

TEST_CASE("a coefficient of variation over one half is no scatter") {
  CHECK(message(std::string(text) + "scatter: {sets: {own: {law: 80 %}}}\n") ==
        "boxes.yaml:34:29: scatter.sets.own.law must be at least 0 % and at most 50 %, not 80 %\n"
        "   34 | scatter: {sets: {own: {law: 80 %}}}\n"
        "      |                             ^\n"
        "   Correct the value or its unit.");
}

TEST_CASE("an interaction is a factor near one") {
  CHECK(message(std::string(text) + "scatter: {sets: {own: {interaction: 10}}}\n") ==
        "boxes.yaml:34:37: scatter.sets.own.interaction must be at least 0.5 and at most 3, not 10\n"
        "   34 | scatter: {sets: {own: {interaction: 10}}}\n"
        "      |                                     ^\n"
        "   Correct the value or its unit.");
}

TEST_CASE("without a scatter block the priors of an untested structure decide at 95 %") {
  const CrashCase crash_case = read();
  REQUIRE(crash_case.scatter_sets.size() == 1);
  CHECK(crash_case.scatter_sets.front().id == "handbook");
  CHECK(crash_case.scatter_sets.front().law.source.standing == Standing::common_practice);
  CHECK(crash_case.level == 0.95);
}

TEST_CASE("a set states what was tested and keeps the priors for the rest") {
  const CrashCase crash_case =
      read(std::string(text) + "scatter: {decide_with: own, level: 99 %, sets: {own: {law: 4 %}}}\n");
  REQUIRE(crash_case.scatter_sets.size() == 2);
  const ScatterSet& own = crash_case.scatter_sets[crash_case.deciding_set];
  CHECK(own.id == "own");
  CHECK(own.law.value == Approx(0.04));
  CHECK(own.build.value == crash_case.scatter_sets.front().build.value);
  CHECK(own.interaction.high == crash_case.scatter_sets.front().interaction.high);
  CHECK(crash_case.level == Approx(0.99));
}

TEST_CASE("specimens that a scatter was counted from put the tolerance factor of that many in the normal quantile's "
          "place") {
  const CrashCase crash_case =
      read(std::string(text) + "scatter: {decide_with: own, sets: {own: {law: 4 %, skin: 6 %, "
                               "specimens: {law: 5}}}}\n");
  const ScatterSet& own = crash_case.scatter_sets[crash_case.deciding_set];
  CHECK(own.counted_law.specimens == 5);
  // One-sided, 95 % of the population at 95 % confidence, n = 5: 4.203 (tables, memory).
  CHECK(own.counted_law.factor == Approx(4.203).margin(1e-3));
  CHECK(own.counted_skin.specimens == 0);
  CHECK(own.counted_skin.factor == 0);
}

TEST_CASE("specimens counted for a scatter that is not stated are refused") {
  CHECK(message(std::string(text) + "scatter: {sets: {own: {law: 4 %, specimens: {skin: 3}}}}\n") ==
        "boxes.yaml:34:52: scatter.sets.own.specimens.skin: specimens are counted for `skin`, whose scatter this set "
        "does "
        "not state\n"
        "   34 | scatter: {sets: {own: {law: 4 %, specimens: {skin: 3}}}}\n"
        "      |                                                    ^\n"
        "   State the scatter that they gave, or delete the line.");
}
