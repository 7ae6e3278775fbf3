#pragma once
#include "crushwright/homogenisation.hpp"
#include "homogenisation/frame_stiffness.hpp"

#include <vector>

namespace crushwright {

/// Forces in the members of a frame under a macroscopic stress of the size of Young's modulus.
/// @param stress  compression positive, over Young's modulus [-], shape = (6)
/// @return        shape = (number of members)
std::vector<BeamForces> member_forces(const BeamFrame& frame, const Voigt& stress);

/// Greatest compressive or tensile stress of a fibre in a member, over Young's modulus: axial force over area plus
/// the larger end moment over the section modulus. Shear and torsion are left out.
double greatest_fibre_stress(const BeamForces& forces, const RoundSection& section);

/// Elastic buckling force of a member: Euler's for its clear length with pinned ends, softened by its shear
/// compliance, P = P_E / (1 + P_E / (k G A)) [cell edges squared].
double buckling_force(const Beam& beam, const RoundSection& section);

} // namespace crushwright
