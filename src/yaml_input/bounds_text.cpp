#include "yaml_input/bounds_text.hpp"

#include "quantities/units.hpp"

#include <cmath>

#include <fmt/format.h>

namespace crushwright {

bool contains(const Bounds& bounds, double si_value) {
  const bool above = bounds.lowest_excluded ? si_value > bounds.lowest : si_value >= bounds.lowest;
  const bool below = bounds.highest_excluded ? si_value < bounds.highest : si_value <= bounds.highest;
  return above && below;
}

std::string text_of(const Bounds& bounds, Dimension dimension) {
  const bool has_lowest = std::isfinite(bounds.lowest);
  const bool has_highest = std::isfinite(bounds.highest);
  const std::string lowest =
      fmt::format("{} {}", bounds.lowest_excluded ? "more than" : "at least", show(bounds.lowest, dimension));
  const std::string highest =
      fmt::format("{} {}", bounds.highest_excluded ? "less than" : "at most", show(bounds.highest, dimension));
  if (has_lowest && has_highest) {
    return fmt::format("{} and {}", lowest, highest);
  }
  if (has_lowest || has_highest) {
    return has_lowest ? lowest : highest;
  }
  return "any number";
}

} // namespace crushwright
