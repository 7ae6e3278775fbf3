#pragma once
#include "homogenisation/voxel_mesh.hpp"

#include <cstdint>
#include <vector>

namespace crushwright {

/// Parts of a periodic voxel solid that hang together through faces, and how far each repeats itself.
struct VoxelParts {
  std::vector<std::int32_t> part_of; ///< part of each voxel, -1 where empty; shape as VoxelSolid::metal
  std::vector<int> reach; ///< of each part: in how many independent directions it meets its own copies, 0-3
};

/// Two voxels of one part may be joined along paths that cross the box's faces differently; the difference is a whole
/// number of boxes, and the part meets its own copy there.
VoxelParts voxel_parts(const VoxelSolid& solid);

} // namespace crushwright
