#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <vector>

namespace crushwright {

using SurfacePolygon = std::vector<std::array<double, 3>>;

/// The part of a flat convex polygon with coordinate[axis] >= bound (above) or <= bound; empty when nothing is left.
SurfacePolygon clipped(const SurfacePolygon& polygon, std::size_t axis, double bound, bool above);

/// One triangle of a mesh.
SurfacePolygon triangle_of(const TriangleMesh& mesh, std::size_t place);

} // namespace crushwright
