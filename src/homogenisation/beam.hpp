#pragma once
#include <Eigen/Core>

namespace crushwright {

using Matrix12 = Eigen::Matrix<double, 12, 12>;
using Vector12 = Eigen::Matrix<double, 12, 1>;

/// Solid round section of a metal with Young's modulus 1.
struct RoundSection {
  double diameter = 0;          ///< [cell edges], > 0
  double poissons_ratio = 0;    ///< of the metal [-], in (-1, 0.5)
  bool shear_compliance = true; ///< Timoshenko; false leaves Euler's beam

  double area() const;            ///< [cell edges squared]
  double second_moment() const;   ///< of area about a diameter [cell edges to the fourth]
  double section_modulus() const; ///< second moment over radius [cell edges cubed]
  double shear_modulus() const;   ///< over Young's modulus [-]
  /// Shear stiffness k G A of the section [cell edges squared], k = 6 (1 + ν) / (7 + 6 ν). Source: [cowper1966shear].
  double shear_stiffness() const;
};

/// How much of a beam's end is rigid because it lies inside a node [cell edges].
struct StiffEnd {
  double axial = 0; ///< against stretch and twist
  double side = 0;  ///< against deflection along the beam's side axis
  double up = 0;    ///< against deflection along its up axis
};

/// A straight beam from node centre to node centre, rigid over a part of its length at each end.
struct Beam {
  Eigen::Vector3d span; ///< centre to centre [cell edges]
  Eigen::Vector3d side; ///< unit vector across the beam; along × side is the up axis
  StiffEnd from;        ///< at the first node
  StiffEnd to;          ///< at the second

  /// Longest length that can bend, over both directions [cell edges].
  double clear_length() const;
};

/// Forces in the beam between its rigid parts, for Young's modulus 1.
struct BeamForces {
  double compression = 0; ///< axial force, compression positive [cell edges squared]
  double moment_from =
      0; ///< resultant bending moment where the rigid part at the first node ends, >= 0 [cell edges cubed]
  double moment_to = 0; ///< where that at the second ends
  double torque = 0;    ///< [cell edges cubed]
};

/// Stiffness against the motions of the two node centres: displacement and rotation of the first, then of the second,
/// in cell axes. Shape = (12, 12), symmetric, six rigid motions free.
Matrix12 beam_stiffness(const Beam& beam, const RoundSection& section);

/// Forces that go with motions of the node centres, ordered as above, shape = (12).
BeamForces beam_forces(const Beam& beam, const RoundSection& section, const Vector12& motion);

} // namespace crushwright
