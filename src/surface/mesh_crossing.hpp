#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <optional>

namespace crushwright {

/// Where a surface meets itself other than along shared edges and corners: the middle of one triangle that crosses
/// another, and how many such pairs there are.
struct Crossing {
  std::array<double, 3> place;
  std::size_t pairs = 0;
};

/// Absent when the surface does not cross itself.
/// @param mesh  closed, every edge between two triangles that face the same way
std::optional<Crossing> crossing_of(const TriangleMesh& mesh);

} // namespace crushwright
