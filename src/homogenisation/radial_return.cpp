#include "homogenisation/radial_return.hpp"

#include "homogenisation/hardening_curve.hpp"

#include <cmath>

namespace crushwright {

namespace {

// Deviator of a stress-like flattened tensor: shears count once.
Voigt deviator(const Voigt& stress) {
  Voigt result = stress;
  result.head<3>().array() -= stress.head<3>().mean();
  return result;
}

double tensor_square(const Voigt& stress) {
  return stress.head<3>().squaredNorm() + 2 * stress.tail<3>().squaredNorm();
}

// Engineering shears to tensor shears.
Voigt as_tensor(const Voigt& strain) {
  Voigt result = strain;
  result.tail<3>() *= 0.5;
  return result;
}

Voigt as_engineering(const Voigt& tensor) {
  Voigt result = tensor;
  result.tail<3>() *= 2;
  return result;
}

StiffnessMatrix deviatoric_projector() {
  StiffnessMatrix projector = StiffnessMatrix::Zero();
  projector.topLeftCorner<3, 3>().setConstant(-1.0 / 3);
  projector.diagonal() << 2.0 / 3, 2.0 / 3, 2.0 / 3, 0.5, 0.5, 0.5;
  return projector;
}

} // namespace

PlasticMetal plastic_metal(double poissons_ratio, double yield_strain, const HardeningCurve& hardening) {
  return {1 / (3 * (1 - 2 * poissons_ratio)), 1 / (2 * (1 + poissons_ratio)), yield_strain, hardening};
}

double mises_stress(const Voigt& stress) {
  return std::sqrt(1.5 * tensor_square(deviator(stress)));
}

PlasticFlow plastic_flow(const PlasticMetal& metal, double trial_equivalent, double before) {
  const double triple_shear = 3 * metal.shear_modulus;
  FlowPoint point = flow_point(metal.hardening, before);
  double excess = trial_equivalent - metal.yield_stress * point.stress;
  if (!(excess > 0)) {
    return {};
  }
  // The excess falls by 3 G + H per unit of plastic strain; the curve is straight between its points, so it is used
  // up segment by segment without iteration.
  double reached = before;
  double slope = metal.yield_stress * point.slope;
  for (const double corner : metal.hardening.plastic_strain) {
    if (corner <= reached) {
      continue;
    }
    const double available = (corner - reached) * (triple_shear + slope);
    if (available >= excess) {
      break;
    }
    excess -= available;
    reached = corner;
    slope = metal.yield_stress * flow_point(metal.hardening, corner).slope;
  }
  const double increment = reached - before + excess / (triple_shear + slope);
  const double shear_factor = 1 - triple_shear * increment / trial_equivalent;
  return {increment, shear_factor, shear_factor - slope / (triple_shear + slope)};
}

ReturnedPoint radial_return(const PlasticMetal& metal, const Voigt& strain, const PlasticState& before) {
  const double shear = metal.shear_modulus;
  const double volume = strain.head<3>().sum();
  const Voigt trial = 2 * shear * deviator(as_tensor(strain - before.strain));
  const double size = std::sqrt(tensor_square(trial));
  const PlasticFlow flow = plastic_flow(metal, std::sqrt(1.5) * size, before.equivalent);

  ReturnedPoint point;
  point.state = before;
  point.stress = flow.shear_factor * trial;
  point.stress.head<3>().array() += metal.bulk_modulus * volume;
  point.tangent = 2 * shear * flow.shear_factor * deviatoric_projector();
  point.tangent.topLeftCorner<3, 3>().array() += metal.bulk_modulus;
  if (flow.increment > 0) {
    const Voigt normal = trial / size;
    point.state.strain += std::sqrt(1.5) * flow.increment * as_engineering(normal);
    point.state.equivalent += flow.increment;
    point.tangent -= 2 * shear * flow.flow_factor * normal * normal.transpose();
  }
  return point;
}

} // namespace crushwright
