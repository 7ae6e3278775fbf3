#pragma once
#include "yaml_input/mapping.hpp"

#include <string_view>

namespace crushwright {

/// 0 of a dimension: what stands for a value that the file may leave out.
Quantity nothing(Dimension dimension);

/// A value that nothing takes the ends of: refuses a spread at the key.
/// @param what_to_do  what the refusal advises.
Quantity without_spread(const Mapping& holder, std::string_view key, Dimension dimension, const Bounds& bounds,
                        std::string_view what_to_do = "Give the value alone, or with its source.");

/// A value whose ends are taken, but no coefficient of variation.
Quantity with_ends(const Mapping& holder, std::string_view key, Dimension dimension, const Bounds& bounds);

} // namespace crushwright
