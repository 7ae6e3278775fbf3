#include "yaml_input/spread.hpp"

#include <string>

namespace crushwright {

Quantity nothing(Dimension dimension) {
  Quantity quantity;
  quantity.dimension = dimension;
  return quantity;
}

Quantity without_spread(const Mapping& holder, std::string_view key, Dimension dimension, const Bounds& bounds,
                        std::string_view what_to_do) {
  Quantity read = holder.quantity(key, dimension, bounds);
  if (read.low || read.high || read.coefficient_of_variation)
    holder.fail(key, "this value carries a spread, which nothing would use", std::string(what_to_do));
  return read;
}

Quantity with_ends(const Mapping& holder, std::string_view key, Dimension dimension, const Bounds& bounds) {
  Quantity read = holder.quantity(key, dimension, bounds);
  if (read.coefficient_of_variation)
    holder.fail(key, "this value carries a coefficient of variation, which nothing would use",
                "Give its ends as `low` and `high`.");
  return read;
}

} // namespace crushwright
