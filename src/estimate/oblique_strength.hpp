#pragma once
#include "crushwright/material.hpp"
#include "crushwright/oblique.hpp"
#include "crushwright/unit_cell.hpp"

#include <optional>
#include <string>

namespace crushwright {

/// What a lattice carries along its crush axis under a force up to 30 degrees from it. docs/method/oblique.md.
/// Strut cells by limit analysis of their own frame, others by a quadratic surface. Kept from call to call.
/// @param crush_direction   in cell axes, three digits
/// @param relative_density  true [-]
/// @throws OutOfDomain for a density that the cell does not reach or a direction that is none.
ObliqueStrength oblique_strength(const UnitCell& cell, const BaseMaterial& material,
                                 const std::string& crush_direction, double relative_density);

/// Shear strength over axial collapse stress that a quadratic surface is drawn with.
struct ShearStrengthRange {
  double low = 0;  ///< [-]
  double high = 0; ///< [-]
  std::string how;
};
ShearStrengthRange shear_strength_range(const UnitCell& cell, const std::string& crush_direction,
                                        double relative_density);

/// (1 + tan²θ / (τc/σc)²)^(-1/2): the axial stress at which (σ/σc)² + (τ/τc)² = 1 is met along τ = σ tan θ, over σc.
double on_quadratic_surface(double shear_over_axial, double angle);

} // namespace crushwright
