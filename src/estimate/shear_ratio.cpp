#include "estimate/shear_ratio.hpp"

#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "estimate/cell_cache.hpp"
#include "homogenisation/oblique_collapse.hpp"
#include "unit_cell/honeycomb_walls.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {
namespace {

/// Of a foam, and of a solid too thin for the grid: 1 / (2 (1 + ν)).
constexpr double foam_poissons_ratio = 0.33;
constexpr double isotropic_ratio = 1 / (2 * (1 + foam_poissons_ratio));
/// Stiffness ratios change slowly with the size: two thirds of a grid step off is a few per mille.
constexpr double ratio_step = 0.1;
/// Walls from one voxel on: G/E is then within a tenth of that of finer grids.
constexpr int voxel_grid = 48;
constexpr double voxel_tolerance = 1e-4;

double softer_plane(const StiffnessMatrix& stiffness, const Eigen::Vector3d& along) {
  const std::vector<Eigen::Vector3d> axes = lateral_axes(along);
  return std::min(shear_modulus(stiffness, along, axes[0]), shear_modulus(stiffness, along, axes[1])) /
         youngs_modulus(stiffness, along);
}

/// Shear flow in the walls along the axis of the cells (Gibson, Ashby, Cellular Solids, ch. 4; memory, and derived):
/// all walls of one thickness G = Gs ρ̄/2 both ways; with the walls of one direction doubled 3/8 ρ̄ Gs across these.
ShearRatio honeycomb_ratio(const UnitCell& cell) {
  const bool doubled = honeycomb_form(cell.nominal_density_coefficients.front()).doubling > 1;
  const double share = doubled ? 0.375 : 0.5;
  return {share / (2 * (1 + metal_poissons_ratio)), false, "shear flow in the walls of the honeycomb, closed form"};
}

ShearRatio voxel_ratio(const UnitCell& cell, const Eigen::Vector3d& along, double ratio) {
  try {
    const SolidStiffness solid =
        solid_stiffness(cell, ratio, metal_poissons_ratio, {.grid = voxel_grid, .tolerance = voxel_tolerance});
    return {softer_plane(solid.over_youngs_modulus, along), true,
            fmt::format("the cell's own solid on {} voxels along its edge", voxel_grid)};
  } catch (const OutOfDomain&) {
    return {isotropic_ratio, false, "an isotropic solid: the walls are too thin for the grid"};
  }
}

ShearRatio computed_ratio(const UnitCell& cell, const Eigen::Vector3d& along, double ratio) {
  if (cell.cell_class == CellClass::strut)
    return {softer_plane(frame_stiffness(cell, ratio, metal_poissons_ratio).over_youngs_modulus, along), true,
            "the cell's own struts as a frame"};
  return voxel_ratio(cell, along, ratio);
}

} // namespace

ShearRatio shear_ratio(const UnitCell& cell, const std::string& crush_direction, double relative_density) {
  if (cell.cell_class == CellClass::foam)
    return {isotropic_ratio, false, "an isotropic foam"};
  const Eigen::Vector3d along = direction_vector(crush_direction).normalized();
  if (cell.cell_class == CellClass::honeycomb && crush_direction == "001")
    return honeycomb_ratio(cell);
  static CellCache<ShearRatio> cache;
  const double ratio = rounded_ratio(cell, size_ratio(cell, relative_density), ratio_step);
  return cache.find_or(cell_key(cell, crush_direction, ratio), [&] { return computed_ratio(cell, along, ratio); });
}

} // namespace crushwright
