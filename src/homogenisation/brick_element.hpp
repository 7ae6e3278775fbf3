#pragma once
#include <Eigen/Core>

#include <array>

namespace crushwright {

/// The 8-node brick of a voxel with mean dilatation: the volumetric part of the strain is the element's mean, so that
/// plastic flow, which keeps its volume, does not lock it. Corners x fastest, then y, then z; degrees of freedom
/// node by node, ux uy uz. docs/method/voxel.md.
using BrickMatrix = Eigen::Matrix<double, 24, 24>;
/// Strain (Voigt order of docs/notation.md, engineering shear) from the 24 displacements.
using BrickStrain = Eigen::Matrix<double, 6, 24>;

/// Strain at the 2 × 2 × 2 Gauss points (x fastest), which weigh an eighth of the volume each.
/// @param spacing  of the voxel along x, y, z, any unit, > 0
std::array<BrickStrain, 8> brick_strains(const std::array<double, 3>& spacing);

/// Stiffness of an isotropic brick.
/// @param spacing         [cell edges], > 0
/// @param poissons_ratio  [-], in (-1, 0.5)
/// @return                symmetric [Young's modulus × cell edges] for Young's modulus 1
BrickMatrix brick_stiffness(const std::array<double, 3>& spacing, double poissons_ratio);

/// Displacements of the corners of the brick at the origin under a uniform strain.
/// @param strain  Voigt order, engineering shear, shape = (6)
Eigen::Matrix<double, 24, 1> brick_displacements(const std::array<double, 3>& spacing,
                                                 const Eigen::Matrix<double, 6, 1>& strain);

} // namespace crushwright
