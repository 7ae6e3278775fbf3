#pragma once
#include "crushwright/unit_cell.hpp"

#include <array>
#include <cstdint>
#include <vector>

namespace crushwright {

/// One periodic cell cut into box-shaped voxels, each of metal or empty.
struct VoxelSolid {
  std::array<int, 3> cells{};           ///< voxels along x, y, z
  std::array<double, 3> edges{1, 1, 1}; ///< of the box that repeats [cell edges]
  std::vector<std::uint8_t> metal;      ///< 1 or 0; shape = (cells z, y, x), x fastest
  double relative_density = 0;          ///< fraction of metal, after dropping [-]
  int dropped = 0;                      ///< voxels not joined through faces to the part that carries load
};

/// The solid of a cell on n voxels along the edge: as many of the voxels nearest to the skeleton as the true relative
/// density of the size asks for, so that the voxels weigh what the solid weighs. Voxels equally near are taken or
/// left together. A honeycomb has voxels of about 1/n in its plane and one along its axis. Then every part that is
/// not joined through faces to a part that reaches its own copies in all three directions is dropped.
/// @throws OutOfDomain when no part reaches its own copies in all three directions: say so and ask for a finer grid.
VoxelSolid voxel_solid(const UnitCell& cell, double size_ratio, int n);

/// The last step of the above for a solid made otherwise: drops what does not carry load, counts it, sets the
/// relative density.
/// @throws OutOfDomain as voxel_solid.
VoxelSolid with_loose_parts_dropped(VoxelSolid solid);

/// The nodes and elements of the metal alone, numbered without gaps; periodic.
struct VoxelMesh {
  std::array<double, 3> spacing{};                   ///< of the voxels [cell edges]
  std::vector<std::array<std::int32_t, 8>> elements; ///< node numbers, in the corner order of the brick: x fastest,
                                                     ///< then y, then z; sorted by z, y, x
  std::vector<std::array<int, 3>> element_place;     ///< voxel indices, shape = (number of elements, 3)
  std::int32_t nodes = 0;
};
VoxelMesh voxel_mesh(const VoxelSolid& solid);

} // namespace crushwright
