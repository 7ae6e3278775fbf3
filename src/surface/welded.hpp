#pragma once
#include "crushwright/surface.hpp"
#include "surface/mesh_file.hpp"

#include <cstddef>

namespace crushwright {

/// A file's polygons as triangles that share their corners.
struct WeldedMesh {
  TriangleMesh mesh;
  std::size_t dropped = 0; ///< triangles that had two equal corners
};

/// Polygons become triangles, equal points one, in the file's order.
WeldedMesh welded(const PolygonSoup& soup);

} // namespace crushwright
