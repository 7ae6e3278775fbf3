#pragma once
#include "crushwright/surface.hpp"

#include <cstddef>
#include <optional>

namespace crushwright {

// Repairs that change no shape beyond rounding. Each takes a mesh with its equal points merged.

/// Faces that were taken out.
struct DroppedFaces {
  std::size_t doubled = 0;      ///< with the same corners in the same order as another
  std::size_t without_area = 0; ///< on a line; the neighbour over the longest edge is split at the corner between
};
DroppedFaces drop_needless_faces(TriangleMesh& mesh);

/// Joins points of open edges that lie within `reach` of each other; points of others stay.
/// @return  points that became one with another
std::size_t join_rims(TriangleMesh& mesh, double reach);

/// Which shell each triangle belongs to, after all triangles of a shell were turned to agree with most of it.
struct AlignedShells {
  std::size_t count = 0;
  std::vector<std::size_t> shell_of;              ///< shape = (number of triangles)
  std::size_t turned = 0;                         ///< triangles
  std::optional<std::array<double, 3>> one_sided; ///< where a surface joins itself the wrong way round
};

/// @param mesh  closed, every edge between two triangles; triangles are turned in place
AlignedShells align_shells(TriangleMesh& mesh);

} // namespace crushwright
