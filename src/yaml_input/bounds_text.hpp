#pragma once
#include "crushwright/quantity.hpp"
#include "yaml_input/mapping.hpp"

#include <string>

namespace crushwright {

bool contains(const Bounds& bounds, double si_value);

/// "more than 0 mm and at most 40 mm", in display units; "any number" without ends.
std::string text_of(const Bounds& bounds, Dimension dimension);

} // namespace crushwright
