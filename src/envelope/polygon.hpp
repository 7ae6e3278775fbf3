#pragma once
#include <array>
#include <vector>

namespace crushwright {

/// (y, z) [m]
using Point = std::array<double, 2>;
/// Corners in order, the last joined to the first; shape = (number of corners, 2) [m].
using Polygon = std::vector<Point>;

/// Shoelace area, positive for counter-clockwise [m^2].
double signed_area(const Polygon& polygon);

/// Centroid of the area inside; of no area the mean of the corners.
Point centroid(const Polygon& polygon);

/// Smallest distance between two parallel lines that hold the polygon [m].
double smallest_width(const Polygon& polygon);

/// True when edges cross or touch other than at the corner they share.
bool crosses_itself(const Polygon& polygon);

} // namespace crushwright
