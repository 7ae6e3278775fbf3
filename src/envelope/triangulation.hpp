#pragma once
#include "envelope/polygon.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace crushwright {

/// Triangles that fill a polygon, counter-clockwise as it is, by cutting off one ear after the other; places in the
/// polygon, shape = (number of corners - 2, 3).
/// @param polygon  counter-clockwise, not crossing itself, no two corners in one place.
std::vector<std::array<std::size_t, 3>> triangulation(const Polygon& polygon);

} // namespace crushwright
