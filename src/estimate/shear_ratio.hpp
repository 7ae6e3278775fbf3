#pragma once
#include "crushwright/unit_cell.hpp"

#include <string>

namespace crushwright {

/// A shear modulus over Young's modulus along the crush axis, and where it comes from.
struct ShearRatio {
  double value = 0;      ///< G in the softer of the two planes that hold the crush axis, over E along it [-]
  bool computed = false; ///< from the cell's own stiffness; else a closed form or an isotropic solid's
  std::string how;
};

/// Of struts from their frame, of honeycombs along their axis in closed form, of other solids from voxels, of foams
/// an isotropic solid's. docs/method/oblique.md. Kept from call to call.
/// @param relative_density  true [-]
/// @throws OutOfDomain for a density that the cell does not reach.
ShearRatio shear_ratio(const UnitCell& cell, const std::string& crush_direction, double relative_density);

/// Poisson's ratio of the metal that stiffness ratios are computed with; 0.28 to 0.34 changes none by 1 %.
inline constexpr double metal_poissons_ratio = 0.3;

} // namespace crushwright
