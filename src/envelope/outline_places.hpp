#pragma once
#include "crushwright/envelope.hpp"
#include "envelope/polygon.hpp"

#include <cstddef>

namespace crushwright {

/// As `outline`, but with the same number of places for every section of a structure, the first to the first and so
/// on: places of a rounded rectangle may coincide.
Polygon outline_places(const Section& section, std::size_t points);

} // namespace crushwright
