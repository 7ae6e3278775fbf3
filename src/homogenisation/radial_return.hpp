#pragma once
#include "crushwright/homogenisation.hpp"

namespace crushwright {

/// Elastic constants and yield stress of one metal, in one unit.
struct PlasticMetal {
  double bulk_modulus = 0;  ///< > 0
  double shear_modulus = 0; ///< > 0
  double yield_stress = 0;  ///< > 0
  HardeningCurve hardening; ///< checked by check_hardening
};

/// @param yield_strain  yield stress over Young's modulus [-]; Young's modulus is 1
PlasticMetal plastic_metal(double poissons_ratio, double yield_strain, const HardeningCurve& hardening);

/// What a point of the metal remembers.
struct PlasticState {
  Voigt strain = Voigt::Zero(); ///< plastic part, engineering shears, no change of volume [-]
  double equivalent = 0;        ///< accumulated equivalent plastic strain [-]
};

/// Size of one step of plastic flow, and what it leaves of the shear stiffness.
struct PlasticFlow {
  double increment = 0;    ///< of the equivalent plastic strain [-], >= 0
  double shear_factor = 1; ///< stiffness across the flow over 2 G: final over trial deviator [-]
  double flow_factor = 0;  ///< taken off it along the flow, over 2 G [-]
};

/// Closest point of the yield surface along the radius.
/// @param trial_equivalent  Mises stress if the step were elastic [unit of yield_stress]
/// @param before            equivalent plastic strain before the step [-]
PlasticFlow plastic_flow(const PlasticMetal& metal, double trial_equivalent, double before);

/// Stress, state and consistent tangent after a step to a total strain (backward Euler, Mises yield surface, flow
/// along its normal, isotropic hardening). Source: the radial return as in the textbooks, derived anew in
/// docs/method/voxel_plasticity.md.
struct ReturnedPoint {
  Voigt stress = Voigt::Zero();
  PlasticState state;
  StiffnessMatrix tangent; ///< d stress / d strain, engineering shears; symmetric, positive semidefinite
};
/// @param strain  total, engineering shears [-]
ReturnedPoint radial_return(const PlasticMetal& metal, const Voigt& strain, const PlasticState& before);

/// sqrt(3/2 s:s), s the stress without its mean. Unit of the stress.
double mises_stress(const Voigt& stress);

} // namespace crushwright
