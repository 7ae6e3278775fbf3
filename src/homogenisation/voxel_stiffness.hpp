#pragma once
#include "crushwright/stiffness_matrix.hpp"
#include "homogenisation/voxel_mesh.hpp"

namespace crushwright {

/// Stiffness of a voxel solid, however it was made.
struct VoxelStiffness {
  StiffnessMatrix over_youngs_modulus;
  int load_cases = 0; ///< 2 where the voxels have the symmetry of a cubic crystal class, otherwise 6
  int iterations = 0; ///< most of any load case
  double residual = 0;
};

/// @param tolerance  relative residual [-], > 0
/// @throws OutOfDomain when a solve does not reach its tolerance.
VoxelStiffness voxel_stiffness(const VoxelSolid& solid, double poissons_ratio, double tolerance);

/// Whether the voxels come back to themselves, up to a shift by quarters of the box, under a half turn about z and
/// the third turn about [111] (or their mirror images). This alone gives the stiffness its cubic form of three
/// numbers.
bool has_cubic_symmetry(const VoxelSolid& solid);

} // namespace crushwright
