#pragma once
#include <array>
#include <cstddef>
#include <vector>

namespace crushwright {

/// Triangles that fill a polygon of a mesh file, as places in the list of its points: a fan from the first corner
/// where the polygon turns one way only, else ears cut off one by one.
/// @param polygon  shape = (number of corners); corners of one place that follow each other count once
std::vector<std::array<std::size_t, 3>> polygon_triangles(const std::vector<std::array<double, 3>>& points,
                                                          const std::vector<std::size_t>& polygon);

} // namespace crushwright
