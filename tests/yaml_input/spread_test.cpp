#include "yaml_input/spread.hpp"

#include <catch2/catch.hpp>

using crushwright::Bounds;
using crushwright::Dimension;
using crushwright::Mapping;

namespace {

Mapping length_of(const std::string& value) {
  Mapping root = Mapping::read_text("schema: 1\nlength: " + value + "\n", "case.yaml");
  root.allow({"length"});
  return root;
}

} // namespace

TEST_CASE("a value whose spread nothing would use is refused with the advice that fits it") {
  const Mapping plain = length_of("20 mm");
  CHECK(without_spread(plain, "length", Dimension::length, Bounds::positive()).value == Approx(0.02));
  CHECK_THROWS_WITH(without_spread(length_of("{value: 20 mm, low: 19 mm}"), "length", Dimension::length,
                                   Bounds::positive(), "Give the smallest one."),
                    "case.yaml:2:1: length: this value carries a spread, which nothing would use\n"
                    "    2 | length: {value: 20 mm, low: 19 mm}\n"
                    "      | ^\n"
                    "   Give the smallest one.");
  CHECK_THROWS_WITH(without_spread(length_of("{value: 20 mm, coefficient_of_variation: 0.1}"), "length",
                                   Dimension::length, Bounds::positive()),
                    Catch::EndsWith("Give the value alone, or with its source."));
}

TEST_CASE("a value whose ends are taken may carry them, but no coefficient of variation") {
  const auto ends = with_ends(length_of("{value: 20 mm, low: 19 mm, high: 21 mm}"), "length", Dimension::length,
                              Bounds::positive());
  CHECK(ends.low_end() == Approx(0.019));
  CHECK(ends.high_end() == Approx(0.021));
  CHECK_THROWS_WITH(with_ends(length_of("{value: 20 mm, coefficient_of_variation: 0.1}"), "length", Dimension::length,
                              Bounds::positive()),
                    Catch::EndsWith("Give its ends as `low` and `high`."));
}

TEST_CASE("what a file leaves out is zero of its dimension") {
  CHECK(crushwright::nothing(Dimension::mass).value == 0);
  CHECK(crushwright::nothing(Dimension::mass).dimension == Dimension::mass);
}
