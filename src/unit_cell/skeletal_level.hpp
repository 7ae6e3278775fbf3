#pragma once
#include "unit_cell/level_surface.hpp"

namespace crushwright {

/// Where the network f > level of a surface is thinnest: the middle of one of its bonds.
struct BondMiddle {
  CellPoint place;      ///< [cell edges]
  double pinch_off = 0; ///< f there: at this level the network falls apart [-]
};

/// Gyroid: nodes (1/8, 1/8, 1/8) and (-1/8, 3/8, 1/8) are joined through (0, 1/4, 1/8), f = √2. Diamond: nodes
/// (1/8, 1/8, 1/8) and (3/8, 3/8, 3/8) are joined through (1/4, 1/4, 1/4), f = 1. All bonds are alike by symmetry.
/// @throws OutOfDomain for another surface.
BondMiddle bond_middle(SheetSurface surface);

/// The level whose network has the stated neck: the largest ball at the middle of a bond has the diameter
/// `neck_ratio`, so the level is the least f in that ball.
/// @param neck_ratio  [cell edges], in (0, neck at level 0]
/// @throws OutOfDomain outside that range, or for a surface without a known bond.
double level_of_neck(SheetSurface surface, double neck_ratio);

/// Neck of the network at level 0, where it holds one half of the cell [cell edges].
double neck_at_half_density(SheetSurface surface);

} // namespace crushwright
