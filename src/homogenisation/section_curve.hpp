#pragma once
#include <Eigen/Core>

namespace crushwright {

// Fully plastic section of a round bar under axial force, bending and torque, everything over its own plastic value.
//
// A force state is (n, t, m1, m2), shape = (4): n = N/Np with Np = π r² σy; t = T/Tp with Tp = (2/√3)(π/3) r³ σy;
// m1, m2 = M/Mp about two axes across the bar, Mp = (4/3) r³ σy. The curve of n and m = |(m1, m2)| is exact:
// n = (2/π)(b + sin b cos b), m = cos³b, where b is the angle from the middle of the section to its neutral chord.
// Torque: an even shear stress about the axis leaves √(1 − t²) of the yield stress to n and m (von Mises), which is a
// stress state in balance and so on the safe side. Shear force across the bar is left out; see
// docs/method/limit_analysis.md for how far that goes.

/// Which forces a section yields under.
enum class SectionYield {
  all,          ///< axial force, torque and bending together
  without_axial ///< the axial force is carried whatever it is; for comparison with bending-only formulas
};

/// How far a force state may be taken until it touches the yield surface: 1 on it, below 1 inside; grows in
/// proportion with the state.
double section_gauge(const Eigen::Vector4d& forces, SectionYield yield = SectionYield::all);

/// The plane g · p = 1 that touches the yield surface where the ray through `forces` meets it; g · p ≤ 1 for every
/// state p inside, and g · forces is the gauge. A corner of the surface gives one of its planes.
/// @param forces  not all zero (without axial force: not all but the first)
Eigen::Vector4d section_tangent(const Eigen::Vector4d& forces, SectionYield yield = SectionYield::all);

/// Work done by the plastic hinge, D = greatest forces · rates inside the yield surface, with ½ D² to second order.
struct HingeWork {
  double work = 0;         ///< D, over Np times the stretch rate of `rates`
  Eigen::Vector4d slope;   ///< of ½ D²: D times the forces on the yield surface
  Eigen::Matrix4d bending; ///< second derivative of ½ D², positive semidefinite
};
/// @param rates  conjugate to (n, t, m1, m2): force times rate is work
HingeWork hinge_work(const Eigen::Vector4d& rates);

/// Plastic values of a round bar at unit yield stress.
struct PlasticForces {
  double axial = 0;   ///< Np over σy [radius²]
  double torque = 0;  ///< Tp over σy [radius³]
  double bending = 0; ///< Mp over σy [radius³]
};
PlasticForces plastic_forces(double radius);

} // namespace crushwright
