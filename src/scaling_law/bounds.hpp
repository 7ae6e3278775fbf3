#pragma once

namespace crushwright {

/// Hashin-Shtrikman upper bound on E*/Es of an isotropic porous solid [-].
///
/// @param relative_density  true ρ̄ [-], in (0, 1).
/// @param poissons_ratio    νs of the solid [-], in (-1, 0.5).
/// @throws OutOfDomain when an argument is outside its range.
/// Source: [hashin1963variational], bulk and shear bounds combined to E = 9KG/(3K + G); recalled, not read.
double hashin_shtrikman_modulus(double relative_density, double poissons_ratio);

/// Upper bound on the bulk modulus K*/Es of an isotropic or cubic porous solid [-]; arguments and source as above.
double hashin_shtrikman_bulk_modulus(double relative_density, double poissons_ratio);

/// Upper bound on the uniaxial collapse stress over σy of an isotropic porous solid with a von Mises matrix [-],
/// 2ρ̄/sqrt(4 + (11/3)(1 - ρ̄)).
/// @throws OutOfDomain when ρ̄ is not in (0, 1).
/// Source: [suquet1993potentials]; recalled, not read.
double suquet_collapse_stress(double relative_density);

} // namespace crushwright
