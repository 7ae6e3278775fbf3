#pragma once
#include "crushwright/quantity.hpp"

#include <optional>
#include <string_view>

namespace crushwright {

/// A number in an accepted unit of the dimension, to SI; absent when the unit is not accepted for it.
std::optional<double> to_si(double number, std::string_view unit, Dimension dimension);

/// An SI value as the number in the dimension's first accepted unit; unchanged for a dimension without units.
double to_first_unit(double si_value, Dimension dimension);

} // namespace crushwright
