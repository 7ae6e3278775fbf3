#pragma once
#include "crushwright/surface.hpp"
#include "surface/field_samples.hpp"

#include <cstddef>

namespace crushwright {

/// How large a mesh of a field may become.
struct FieldMeshLimit {
  std::size_t triangles = 20'000'000; ///< 36 bytes each while meshing, with their points
  std::size_t corners = 100'000'000;  ///< of the grid, 9 bytes each
};

/// The boundary of the part of a body inside a box, closed by flat caps on the box's faces: marching tetrahedra, six
/// to a grid cell, points shared, facing outward; no triangle crosses another. Empty when the body misses the box.
///
/// A part of the body, or a gap in it, that is thinner than the longest edge of a tetrahedron (`longest_edge`) may be
/// lost: the caller sees to it that nothing is. Points lie on the boundary to 0.1 % of an edge, but no nearer than
/// that to a corner of the grid. Boxes that share a face get the same triangles there, facing opposite ways. The
/// same for any number of threads. docs/method/surface_meshing.md.
/// @throws OutOfDomain when the grid or the mesh exceeds the limit, with the spacing that would fit; or when a value
/// is not
///         a number.
TriangleMesh mesh_of_field(const FieldAt& field, const FieldGrid& grid, const FieldMeshLimit& limit = {});

/// The diagonal of a grid cell.
double longest_edge(const FieldGrid& grid);

} // namespace crushwright
