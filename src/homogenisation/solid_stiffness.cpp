#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "homogenisation/voxel_mesh.hpp"
#include "homogenisation/voxel_stiffness.hpp"

#include <fmt/format.h>

namespace crushwright {

SolidStiffness solid_stiffness(const UnitCell& cell, double size_ratio, double poissons_ratio,
                               const SolidOptions& options) {
  if (options.grid < 8 || options.grid % 2 != 0)
    throw OutOfDomain(fmt::format("voxels along the cell edge: {}; expected an even number from 8", options.grid));
  if (!(options.tolerance > 0 && options.tolerance < 1))
    throw OutOfDomain(fmt::format("relative residual: {:g}; expected a number between 0 and 1", options.tolerance));
  const VoxelSolid solid = voxel_solid(cell, size_ratio, options.grid);
  const VoxelStiffness computed = voxel_stiffness(solid, poissons_ratio, options.tolerance);
  SolidStiffness result;
  result.size_ratio = size_ratio;
  result.relative_density = solid.relative_density;
  result.over_youngs_modulus = computed.over_youngs_modulus;
  result.grid = options.grid;
  result.iterations = computed.iterations;
  result.residual = computed.residual;
  result.voxels_across = size_ratio * options.grid;
  result.dropped_voxels = solid.dropped;
  return result;
}

} // namespace crushwright
