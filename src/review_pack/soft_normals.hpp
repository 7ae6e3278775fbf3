#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace crushwright {

/// Normals at the corners of a mesh's triangles, for shading: the mean of the triangles about a corner that bend away
/// by less than 35 degrees, so that round walls look round and edges stay sharp.
class SoftNormals {
public:
  explicit SoftNormals(const TriangleMesh& mesh);
  /// Unit vector out of the metal; zero for a triangle without area.
  const std::array<float, 3>& at(std::size_t triangle, std::size_t corner) const {
    return normals_[3 * triangle + corner];
  }

private:
  std::vector<std::array<float, 3>> normals_; ///< shape = (number of triangles, 3 corners)
};

} // namespace crushwright
