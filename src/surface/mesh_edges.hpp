#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace crushwright {

/// One side of an edge: the triangle that runs along it, from its lower point to its higher one or back.
struct EdgeSide {
  std::int32_t low = 0;
  std::int32_t high = 0;
  std::int32_t triangle = 0;
  bool backward = false;
};

/// By edge, then by triangle; shape = (3 × number of triangles)
std::vector<EdgeSide> edge_sides(const TriangleMesh& mesh);

using MeshEdge = std::array<std::int32_t, 2>; ///< the lower point first

/// What keeps a mesh from being closed and of one mind; all empty for a good one.
struct EdgeFaults {
  std::vector<MeshEdge> open;    ///< with one triangle
  std::vector<MeshEdge> crowded; ///< with more than two
  std::vector<MeshEdge> turned;  ///< with two that face opposite ways
};
EdgeFaults edge_faults(const TriangleMesh& mesh);

std::array<double, 3> middle_of(const TriangleMesh& mesh, const MeshEdge& edge);

} // namespace crushwright
