#pragma once
#include "crushwright/surface.hpp"
#include "packaging/triangle_distance.hpp"

#include <vector>

namespace crushwright {

/// The triangles of a mesh, each parted at the stations that it reaches across; together they cover the same faces.
/// @param borders  rising [m]; may be empty
std::vector<Corners3> triangle_pieces(const TriangleMesh& mesh, const std::vector<double>& borders);

} // namespace crushwright
