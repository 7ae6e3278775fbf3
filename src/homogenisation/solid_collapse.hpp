#pragma once
#include "crushwright/homogenisation.hpp"
#include "homogenisation/voxel_mesh.hpp"

#include <vector>

namespace crushwright {

/// How a voxel solid is crushed: metal, direction, how far and how finely.
struct Crushing {
  double poissons_ratio = 0.33;
  double yield_strain = 0.0035; ///< yield stress over Young's modulus [-], in (0, 0.1)
  HardeningCurve hardening{{0.0}, {1.0}};
  Eigen::Vector3d direction{1, 0, 0}; ///< any length but zero
  double last_strain = 0.01;          ///< macroscopic [-], in (0, 0.1]
  double elastic_tolerance = 1e-6;    ///< of the elastic solve, relative residual [-]
  double plastic_tolerance = 5e-4;    ///< of a step: energy norm of what is out of balance over that of the state [-]
  double offset_to_reach = 0; ///< plastic strain until which the path goes on past last_strain, to 0.1 at most;
                              ///< 0: it does not [-]
  double first_step = 0.15;   ///< about, over the strain of first yield [-]
  double step_growth = 1.25;  ///< of a step over the one before [-], >= 1
};

/// The path of a crushing under uniaxial stress; stresses over the yield stress, energies over the yield stress too.
struct CrushingPath {
  double elastic_modulus = 0; ///< over Young's modulus [-]
  double first_yield = 0;     ///< stress [-]
  std::vector<double> strain; ///< macroscopic, along the direction; first 0, then first yield [-]
  std::vector<double> stress;
  std::vector<double> elastic_energy; ///< stored in the metal, of the box's volume
  std::vector<double> plastic_work;   ///< spent since the start, of the box's volume
  std::vector<double> side_stress;    ///< greatest of the five stresses that should be zero
  double yielded_share = 0;           ///< of the metal's points at the end [-]
  int iterations = 0;                 ///< linear iterations, all steps together
  int corrections = 0;                ///< Newton's, all steps together
};

/// @throws OutOfDomain for values outside the ranges above or a step that does not come to balance; the message
///         carries the values.
CrushingPath crushing_path(const VoxelSolid& solid, const Crushing& crushing);

/// Where the path first meets the elastic line shifted by a plastic strain; stress over the yield stress.
/// @param offset  [-], >= 0
/// @throws OutOfDomain when the path ends before.
double offset_stress(const CrushingPath& path, double yield_strain, double offset);

} // namespace crushwright
