#pragma once
#include <Eigen/Core>

namespace crushwright {

/// Stiffness of a periodic solid, stress over strain, in Voigt order xx, yy, zz, yz, xz, xy with engineering shear
/// strains (docs/notation.md): [Pa], or over the base metal's Young's modulus where the name says so.
///
///            xx  yy  zz  yz  xz  xy
///     xx  [  .   .   .   .   .   .  ]
///     ...                              shape = (6, 6), symmetric
using StiffnessMatrix = Eigen::Matrix<double, 6, 6>;

/// Symmetric stress or strain, same order; shear strains are engineering. Shape = (6).
using Voigt = Eigen::Matrix<double, 6, 1>;

/// The isotropic solid's stiffness.
/// @param youngs_modulus  any unit, > 0
/// @param poissons_ratio  [-], in (-1, 0.5)
/// @throws OutOfDomain for values outside these ranges.
StiffnessMatrix isotropic_stiffness(double youngs_modulus, double poissons_ratio);

/// The same solid seen from axes turned by a rotation: column k of `axes` is the new axis k in the old axes.
/// @param axes  rotation, shape = (3, 3); orthonormal to 1e-9, otherwise OutOfDomain
StiffnessMatrix in_turned_axes(const StiffnessMatrix& stiffness, const Eigen::Matrix3d& axes);

/// Young's modulus when pulled along a direction with free sides, 1 / (n n : S : n n). Unit of the stiffness.
/// @param direction  any length but zero
/// @throws OutOfDomain for a zero direction or a stiffness that is not positive definite (also the functions below).
double youngs_modulus(const StiffnessMatrix& stiffness, const Eigen::Vector3d& direction);

/// Contraction along `transverse` over stretch along `direction`, pulled along `direction` with free sides [-].
/// @param transverse  perpendicular to direction to 1e-9, otherwise OutOfDomain
double poissons_ratio(const StiffnessMatrix& stiffness, const Eigen::Vector3d& direction,
                      const Eigen::Vector3d& transverse);

/// Shear modulus between two perpendicular directions, others free. Unit of the stiffness.
double shear_modulus(const StiffnessMatrix& stiffness, const Eigen::Vector3d& direction,
                     const Eigen::Vector3d& transverse);

/// Bulk modulus under equal strain in all directions (Voigt) and under equal pressure from all sides (Reuss). They
/// are one number for a cubic cell. Unit of the stiffness.
double bulk_modulus_voigt(const StiffnessMatrix& stiffness);
double bulk_modulus_reuss(const StiffnessMatrix& stiffness);

/// Zener's ratio 2 C44 / (C11 - C12), each the mean of its three cubic places [-]; 1 for an isotropic solid. Means
/// something for cubic cells only.
double zener_ratio(const StiffnessMatrix& stiffness);

/// Universal anisotropy 5 G_V / G_R + K_V / K_R - 6 [-]; 0 for an isotropic solid, grows without bound.
/// Source: [ranganathan2008universal].
double universal_anisotropy(const StiffnessMatrix& stiffness);

/// Directions in which Young's modulus is greatest and least.
struct ModulusExtremes {
  Eigen::Vector3d stiffest; ///< unit vector, first non-zero part positive
  double greatest = 0;      ///< unit of the stiffness
  Eigen::Vector3d softest;
  double least = 0;
};
/// By search over the sphere, then refined to 1e-9 in the modulus. An isotropic solid gives [001] for both.
ModulusExtremes modulus_extremes(const StiffnessMatrix& stiffness);

/// Largest |C - C'| / |C| over the rotations of the declared symmetry, "cubic", "tetragonal" (z apart), "hexagonal"
/// (z the axis) or "isotropic" [-]; 0 when the stiffness has that symmetry. Norm: Frobenius.
/// @throws OutOfDomain for another name.
double symmetry_error(const StiffnessMatrix& stiffness, const char* symmetry);

} // namespace crushwright
