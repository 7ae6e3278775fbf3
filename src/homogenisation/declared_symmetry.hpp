#pragma once
#include "crushwright/stiffness_matrix.hpp"
#include "crushwright/unit_cell.hpp"

namespace crushwright {

/// How far a computed stiffness may be off the declared symmetry [-]: a frame has it exactly, voxels only as well as
/// their grid follows the surface.
inline constexpr double frame_symmetry_limit = 0.01;
inline constexpr double voxel_symmetry_limit = 0.10;

/// Laws of one direction serve all directions that the declared symmetry makes equal, so a wrong word in the entry
/// would give a wrong stiffness without a sign of it.
/// @param limit  largest symmetry_error [-]
/// @throws OutOfDomain when the stiffness does not have the symmetry that the entry declares; the message names the
///         Young's moduli that should be equal and the symmetries that hold.
void require_declared_symmetry(const UnitCell& cell, const StiffnessMatrix& stiffness, double limit);

} // namespace crushwright
