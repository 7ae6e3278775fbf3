#pragma once
#include "crushwright/envelope.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace crushwright {

/// The outline as points at equal distances along it, counter-clockwise, the first to the left (+y) of the centroid
/// at its height, so that point k of one section lies beside point k of the next whatever points the sections were
/// given or cut with. Corners between two points are cut off.
/// @param points  at least 3
/// @return        (y, z) [m], shape = (points, 2)
std::vector<std::array<double, 2>> even_outline(const Section& section, std::size_t points);

} // namespace crushwright
