#pragma once
#include "crushwright/homogenisation.hpp"

namespace crushwright {

/// Order in the voxel's edge to which stiffness converges when the voxels weigh what the solid weighs: stairs in
/// place of smooth skin. Measured in docs/method/voxel.md.
constexpr double voxel_order = 1;

/// What stairs cost a wall, as a layer of this many voxels' thickness; measured there too. Two grids that happen to
/// agree do not make a result surer than this over the voxels across.
constexpr double voxel_layer = 0.2;

struct Extrapolated {
  double value = 0;  ///< for voxels of no size; unit of the input
  double spread = 0; ///< |value - fine|, same unit
};

/// Richardson's extrapolation from two grids.
/// @param refinement  fine voxels over coarse voxels along the edge, > 1
/// @param order       > 0
/// @throws OutOfDomain for values outside these ranges.
Extrapolated extrapolated(double coarse, double fine, double refinement, double order = voxel_order);

/// Order that three grids of one refinement show: log of the ratio of steps over log of the refinement.
/// @throws OutOfDomain when the steps do not shrink in one direction.
double observed_order(double coarse, double middle, double fine, double refinement);

/// Stiffness of a cell extrapolated from two grids.
struct ExtrapolatedStiffness {
  StiffnessMatrix over_youngs_modulus; ///< at the true density of the size
  double spread = 0;           ///< |value - fine| over |value| (Frobenius norm), at least voxel_layer over the fine
                               ///< grid's voxels across [-]
  double density_exponent = 0; ///< of the stiffness in density near this size, measured on the coarse grid
  SolidStiffness coarse;
  SolidStiffness fine;
};

/// Voxels that are equally near are taken together, so that a grid may miss the density by a few in a thousand (a few
/// in a hundred below 6 voxels across a strut). Each grid's stiffness is first brought to the true density by the
/// power that two sizes on the coarse grid show.
/// @param coarse_grid, fine_grid  voxels along the edge, even, >= 8, fine > coarse
/// @throws OutOfDomain as solid_stiffness.
ExtrapolatedStiffness extrapolated_stiffness(const UnitCell& cell, double size_ratio, double poissons_ratio,
                                             int coarse_grid, int fine_grid, double tolerance = 1e-6);

} // namespace crushwright
