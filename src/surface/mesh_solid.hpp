#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <vector>

namespace crushwright {

/// Volume of the part of a closed mesh that lies in [0, 1)³, exact up to rounding: ∮ min(max(x, 0), 1) n_x dS over
/// the part of the surface with y and z between 0 and 1.
double volume_in_cell(const TriangleMesh& mesh);

/// Checks that a closed mesh, scaled to cell edges, is one cell of a solid that repeats: it fills the cell's faces
/// from end to end, and opposite faces carry the same figure of metal.
/// @param edge  length of the cell's edge in the mesh's own units, for the messages
/// @throws OutOfDomain that says which pair of faces differs and by how much, or how the size misses the cell.
void require_one_cell(const TriangleMesh& mesh, double edge);

/// Which samples of a grid over [0, 1)³ lie inside a closed mesh, by counting crossings of rays along x.
/// @return 1 or 0, shape = (cells z, y, x), x fastest
std::vector<std::uint8_t> inside_samples(const TriangleMesh& mesh, const std::array<int, 3>& cells);

/// The metal of one cell, bounded by a closed mesh; what lies in [0, 1)³ counts, and repeats. Faces of the mesh in
/// the cell's own faces are cuts, not boundaries.
class MeshSolid {
public:
  explicit MeshSolid(const TriangleMesh& mesh);
  ~MeshSolid();
  MeshSolid(const MeshSolid&) = delete;
  MeshSolid& operator=(const MeshSolid&) = delete;

  /// Visits the samples of one layer along z: all those inside, and those outside within `reach` of the boundary,
  /// with signed distances [cell edges], negative inside, never beyond `reach` inside.
  /// @param reach  below 1
  void visit_layer(const std::array<int, 3>& cells, double reach, int layer,
                   const std::function<void(std::size_t index, double distance)>& visitor) const;

private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

} // namespace crushwright
