#include "homogenisation/radial_return.hpp"

#include "homogenisation/hardening_curve.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace crushwright;

namespace {

const double poisson = 0.3;
const double yield_strain = 0.004; // Young's modulus is 1, so this is the yield stress too

HardeningCurve hardening() {
  return {{0, 0.01, 0.03, 0.1}, {1, 1.2, 1.4, 1.5}};
}
HardeningCurve perfect() {
  return {{0}, {1}};
}

// A bar under uniaxial stress with a given plastic strain; closed form.
Voigt bar_strain(double stress, double plastic) {
  Voigt strain = Voigt::Zero();
  strain[0] = stress + plastic;
  strain[1] = strain[2] = -poisson * stress - plastic / 2;
  return strain;
}

class RandomStrains {
public:
  Voigt next(double size) {
    Voigt strain;
    for (double& value : strain) {
      value = size * uniform_(generator_);
    }
    return strain;
  }

private:
  std::mt19937 generator_{7};
  std::uniform_real_distribution<double> uniform_{-1, 1};
};

double contraction(const Voigt& stress, const Voigt& strain) {
  return stress.dot(strain);
}

} // namespace

TEST_CASE("a bar follows its flow curve in tension and compression") {
  const PlasticMetal metal = plastic_metal(poisson, yield_strain, hardening());
  for (const double sign : {1.0, -1.0}) {
    for (const double plastic : {0.0, 0.004, 0.01, 0.02, 0.05, 0.3}) {
      const double stress = yield_strain * flow_point(metal.hardening, plastic).stress;
      const ReturnedPoint point = radial_return(metal, sign * bar_strain(stress, plastic), {});
      CHECK(point.stress[0] == Approx(sign * stress).epsilon(1e-12));
      CHECK(point.stress.tail<5>().norm() < 1e-14);
      CHECK(point.state.equivalent == Approx(plastic).epsilon(1e-10).margin(1e-15));
    }
  }
}

TEST_CASE("perfectly plastic metal in pure shear carries the yield stress over the root of three") {
  const PlasticMetal metal = plastic_metal(poisson, yield_strain, perfect());
  Voigt strain = Voigt::Zero();
  const double limit = yield_strain / std::sqrt(3.0) / metal.shear_modulus;
  strain[5] = 0.999 * limit;
  CHECK(radial_return(metal, strain, {}).state.equivalent == 0);
  strain[5] = 3 * limit;
  const ReturnedPoint point = radial_return(metal, strain, {});
  CHECK(point.stress[5] == Approx(yield_strain / std::sqrt(3.0)).epsilon(1e-12));
  CHECK(point.state.equivalent == Approx(2 * limit / std::sqrt(3.0)).epsilon(1e-12));
}

TEST_CASE("pressure alone never yields") {
  const PlasticMetal metal = plastic_metal(poisson, yield_strain, perfect());
  Voigt strain = Voigt::Zero();
  strain.head<3>().setConstant(0.5);
  const ReturnedPoint point = radial_return(metal, strain, {});
  CHECK(point.state.equivalent == 0);
  CHECK(point.stress[0] == Approx(1.5 * metal.bulk_modulus).epsilon(1e-12));
}

TEST_CASE("along a proportional path one step ends where many do") {
  const PlasticMetal metal = plastic_metal(poisson, yield_strain, hardening());
  const Voigt strain = RandomStrains().next(0.05);
  const ReturnedPoint once = radial_return(metal, strain, {});
  PlasticState state;
  ReturnedPoint point;
  for (int step = 1; step <= 50; ++step) {
    point = radial_return(metal, strain * step / 50, state);
    state = point.state;
  }
  CHECK((point.stress - once.stress).norm() < 1e-12 * once.stress.norm());
  CHECK(point.state.equivalent == Approx(once.state.equivalent).epsilon(1e-12));
}

TEST_CASE("on any path the stress stays on or within the yield surface and plastic work is never negative") {
  const PlasticMetal metal = plastic_metal(poisson, yield_strain, hardening());
  RandomStrains random;
  Voigt strain = Voigt::Zero();
  PlasticState state;
  int flowing = 0;
  for (int step = 0; step < 400; ++step) {
    strain += random.next(0.004);
    const ReturnedPoint point = radial_return(metal, strain, state);
    const double flow_stress = yield_strain * flow_point(metal.hardening, point.state.equivalent).stress;
    CHECK(mises_stress(point.stress) <= flow_stress * (1 + 1e-12));
    const double work = contraction(point.stress, point.state.strain - state.strain);
    CHECK(work >= -1e-16);
    // Mises flow: the work is flow stress times equivalent strain, and the volume stays.
    CHECK(work == Approx(flow_stress * (point.state.equivalent - state.equivalent)).epsilon(1e-9).margin(1e-15));
    CHECK(std::abs(point.state.strain.head<3>().sum()) < 1e-14);
    flowing += point.state.equivalent > state.equivalent;
    state = point.state;
  }
  CHECK(flowing > 100);
}

TEST_CASE("the tangent is the derivative of the stress, symmetric and never negative") {
  RandomStrains random;
  for (const HardeningCurve& curve : {hardening(), perfect()}) {
    const PlasticMetal metal = plastic_metal(poisson, yield_strain, curve);
    for (int trial = 0; trial < 40; ++trial) {
      PlasticState state = radial_return(metal, random.next(0.02), {}).state;
      const Voigt strain = random.next(0.03);
      const ReturnedPoint point = radial_return(metal, strain, state);
      StiffnessMatrix differences;
      const double step = 1e-8;
      for (Eigen::Index column = 0; column < 6; ++column) {
        Voigt ahead = strain;
        Voigt behind = strain;
        ahead[column] += step;
        behind[column] -= step;
        differences.col(column) =
            (radial_return(metal, ahead, state).stress - radial_return(metal, behind, state).stress) / (2 * step);
      }
      CHECK((differences - point.tangent).norm() < 1e-6 * point.tangent.norm());
      CHECK((point.tangent - point.tangent.transpose()).norm() < 1e-14);
      for (int look = 0; look < 5; ++look) {
        const Voigt change = random.next(1);
        CHECK(change.dot(point.tangent * change) > -1e-12);
      }
    }
  }
}
