#include "coupon/test_conditions.hpp"

#include "coupon/specimen_size.hpp"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr double rounding = 1e-6; ///< relative: 0.01 m typed as 10 mm is not short of 10 mm
constexpr double no_limit = std::numeric_limits<double>::infinity();

struct Asked {
  std::string_view what, words;
  double low, high;      ///< SI
  double zero, per_unit; ///< of the unit it is shown in
  std::string_view unit;
};

constexpr Asked porosity{"porosity", "50 % or more", 0.5, no_limit, 0, 100, " %"};
constexpr Asked slenderness{"height over width", "1 to 2", 1, 2, 0, 1, ""};
constexpr Asked shortest{"shortest edge", "10 mm or more", 10e-3, no_limit, 0, 1e3, " mm"};
constexpr Asked cells{"cells along the shortest edge", "10 or more", 10, no_limit, 0, 1, ""};
constexpr Asked rate{"strain rate", "0.001 to 0.01 1/s", 1e-3, 1e-2, 0, 1, " 1/s"};
constexpr Asked temperature{"temperature", "10 to 35 °C", 283.15, 308.15, 273.15, 1, " °C"};

TestCondition condition(const Asked& asked, const std::optional<double>& value) {
  TestCondition result{std::string(asked.what), "not stated", std::string(asked.words), std::nullopt};
  if (value.has_value()) {
    result.found = fmt::format("{:.3g}{}", (*value - asked.zero) * asked.per_unit, asked.unit);
    result.holds = *value >= asked.low * (1 - rounding) && *value <= asked.high * (1 + rounding);
  }
  return result;
}

} // namespace

std::vector<TestCondition> test_conditions(const SpecimenFacts& facts, std::optional<double> relative_density) {
  const std::optional<double> width = least_width(facts);
  std::optional<double> ratio;
  std::optional<double> edge;
  if (width && facts.height) {
    ratio = *facts.height / *width;
    edge = std::min(*facts.height, *width);
  }
  std::optional<double> pores;
  if (relative_density) {
    pores = 1 - *relative_density;
  }
  return {condition(porosity, pores),
          condition(slenderness, ratio),
          condition(shortest, edge),
          condition(cells, facts.cells_across),
          condition(rate, strain_rate_of(facts)),
          condition(temperature, facts.temperature)};
}

} // namespace crushwright
