#pragma once
#include "crushwright/surface.hpp"
#include "surface/mesh_repair.hpp"

namespace crushwright {

/// One closed piece of a surface.
struct Shell {
  TriangleMesh mesh;
  double volume = 0; ///< below zero when it faces inward
  std::array<double, 3> middle{};
  std::size_t inside_of = 0; ///< how many other shells it lies in
};

/// The largest first.
/// @param mesh  closed, aligned, not crossing itself
std::vector<Shell> shells_of(const TriangleMesh& mesh, const AlignedShells& aligned);

} // namespace crushwright
