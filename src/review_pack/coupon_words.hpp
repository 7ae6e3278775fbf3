#pragma once
#include "crushwright/coupon_series.hpp"

#include <string>

namespace crushwright {

/// A mean or bound of a property in its display unit, plain text; energy per volume in MJ/m³.
std::string value_text(const PropertySummary& summary, double value);

/// "plateau stress at relative density 0.105" to "plateau stress, density 0.105".
std::string short_name(std::string property);

} // namespace crushwright
