#pragma once
#include "crushwright/material.hpp"
#include "crushwright/unit_cell.hpp"

#include <optional>
#include <string>

namespace crushwright {

/// What is left of a lattice's crush force on the weak side where its struts or walls break instead of folding.
struct FractureBand {
  double low = 1;   ///< factor on the lattice's force [-], in (0, 1]
  std::string note; ///< why, and how weak the evidence is; empty where the factor is 1
};

/// Metal under 8 % fracture elongation only, by the rotation that a hinge has left; docs/method/fracture.md.
/// @param plateau_evidence  of the plateau law in use: a measured one holds the breaking already
/// @param stated            the user's own factor, which goes before all else [-]
FractureBand fracture_band(const UnitCell& cell, const BaseMaterial& material, Evidence plateau_evidence,
                           const std::optional<Quantity>& stated = std::nullopt);

/// The factor of a metal alone: ½ (1 + A / 8 %) with the low end of its fracture elongation A; 1 from 8 % on, and
/// where none is stated.
double fracture_low(const BaseMaterial& material);

} // namespace crushwright
