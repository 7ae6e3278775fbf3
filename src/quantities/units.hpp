#pragma once
#include "crushwright/quantity.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// Reads "275 MPa": a number, one space, one accepted unit of the dimension; bare for numbers; bare or % for
/// fractions.
///
/// @return value in SI (temperature in kelvin, angle in radian).
/// @throws InputError with what was expected, without a position (yaml_input adds file, line and caret).
double parse_value(std::string_view text, Dimension dimension);

/// The accepted unit spellings of a dimension, the one used for showing first. Empty for bare numbers.
const std::vector<std::string>& accepted_units(Dimension dimension);

/// "kN", "mm", "kJ", "g", "ms": the unit that reports use for a dimension; "" for bare numbers.
std::string display_unit(Dimension dimension);

/// SI value to the display unit's number (temperature included), unrounded.
double in_display_unit(double si_value, Dimension dimension);

/// "43.2 kN": the SI value in its display unit with about four significant digits, never in scientific notation for
/// everyday magnitudes.
std::string show(double si_value, Dimension dimension);

/// The SI unit's symbol as result files state it ("N", "m", "m/s^2", "Pa", "J", "kg", "1").
std::string si_unit(Dimension dimension);

std::string_view name_of(Dimension dimension);

} // namespace crushwright
