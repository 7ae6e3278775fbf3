#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <vector>

namespace crushwright {

/// The figure that a plane x = station cuts out of a closed surface.
struct SurfaceCut {
  double station = 0;
  /// Closed loops in (y, z), first point not repeated: the outer ones counter-clockwise, holes clockwise, the
  /// largest first; empty where the plane misses the surface.
  std::vector<std::vector<std::array<double, 2>>> loops;
};

/// Cuts of a closed mesh. A plane through corners or faces of the mesh shows what it would show a hair nearer to the
/// mesh's middle, so that the planes of its two end faces give those faces.
/// @param stations  any order; shape = (number of cuts)
/// @throws OutOfDomain when a cut does not close, because the mesh is open there.
std::vector<SurfaceCut> cuts_across(const TriangleMesh& mesh, const std::vector<double>& stations);

} // namespace crushwright
