#pragma once
#include "homogenisation/voxel_mesh.hpp"

#include <array>
#include <memory>
#include <vector>

namespace crushwright {

/// Elastic stiffness of a voxel mesh, Young's modulus 1, and an approximate inverse of it by one cycle of geometric
/// multigrid in single precision. docs/method/voxel.md.
///
/// Displacements and forces are node by node, ux uy uz; shape = (3 × nodes). The same bytes for any number of
/// threads.
class VoxelMultigrid {
public:
  /// @param cells           voxels of the box along x, y, z; any number, even ones coarsen best
  /// @param poissons_ratio  [-], in (-1, 0.5)
  VoxelMultigrid(const VoxelMesh& mesh, const std::array<int, 3>& cells, double poissons_ratio);
  ~VoxelMultigrid();
  VoxelMultigrid(const VoxelMultigrid&) = delete;
  VoxelMultigrid& operator=(const VoxelMultigrid&) = delete;

  /// forces = K displacements. K is symmetric and semidefinite: a shift of everything costs nothing.
  void apply(const std::vector<double>& displacements, std::vector<double>& forces) const;

  /// displacements ≈ K⁻¹ forces, symmetric up to single precision. Not safe to call from two threads at once.
  void precondition(const std::vector<double>& forces, std::vector<double>& displacements) const;

  int levels() const;
  /// Arithmetic operations of one `apply`.
  double operations() const;

private:
  struct Levels;
  std::unique_ptr<Levels> levels_;
};

} // namespace crushwright
