#pragma once
#include "crushwright/column_check.hpp"
#include "crushwright/material.hpp"
#include "crushwright/unit_cell.hpp"

#include <string>

namespace crushwright {

/// A lattice as the material of a beam along its crush axis. docs/method/oblique.md.
/// @param crush_direction      in cell axes, three digits
/// @param relative_density     true [-]
/// @param elastic_modulus_used along the axis, as the crush curve has it [Pa]; every modulus is scaled to it
/// @param plateau_used         collapse stress, likewise [Pa]
/// @throws OutOfDomain for a density that the cell does not reach, or a metal without density or proof stress.
BeamMaterial lattice_beam(const UnitCell& cell, const BaseMaterial& material, const std::string& crush_direction,
                          double relative_density, double elastic_modulus_used, double plateau_used);

} // namespace crushwright
