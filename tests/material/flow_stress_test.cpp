#include "crushwright/errors.hpp"
#include "crushwright/material.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;

namespace {

Quantity known(double value) {
  Quantity quantity;
  quantity.value = value;
  return quantity;
}

BaseMaterial hardening_metal() {
  BaseMaterial material;
  material.id = "test-metal";
  material.name = "Test metal";
  material.proof_stress = known(200e6);
  material.ultimate_stress = known(300e6);
  material.hardening_exponent = known(0.2);
  return material;
}

} // namespace

TEST_CASE("the flow stress of a power-law metal is sqrt(proof x ultimate / (1 + n))") {
  const FlowStress stress = flow_stress(hardening_metal());
  // 200 x 300 / 1.2 = 50000, its root is 223.6068 (hand calculation)
  CHECK(stress.value == Approx(223.6068e6).epsilon(1e-7));
  CHECK(stress.remark ==
        "sqrt(proof stress x ultimate stress / (1 + n)), n = 0.2 from the stated hardening exponent");
}

TEST_CASE("the flow stress lies between the proof stress and the mean of the curve up to its greatest load") {
  // Second method: the energy-equivalent stress of σ = K ε^n from 0 to the strain n of greatest load is K n^n / (1 +
  // n); the ultimate (engineering) stress there is K (n/e)^n. With the 0.2 % proof stress taken off the same curve
  // the formula must lie below that mean: folding spends most of its strain early.
  const double n = 0.15;
  const double strength = 500e6;
  BaseMaterial material = hardening_metal();
  material.hardening_exponent = known(n);
  material.proof_stress = known(strength * std::pow(0.004, n));
  material.ultimate_stress = known(strength * std::pow(n / std::exp(1.0), n));
  const double mean_to_rise = strength * std::pow(n, n) / (1 + n);
  CHECK(flow_stress(material).value < mean_to_rise);
  CHECK(flow_stress(material).value > material.proof_stress->value);
}

TEST_CASE("uniform elongation stands in for the hardening exponent at the load maximum") {
  BaseMaterial material = hardening_metal();
  material.hardening_exponent.reset();
  material.uniform_elongation = known(0.06);
  // ln 1.06 = 0.0582689 (hand calculation)
  CHECK(flow_stress(material).value == Approx(std::sqrt(200e6 * 300e6 / 1.0582689)).epsilon(1e-7));
  CHECK(flow_stress(material).remark ==
        "sqrt(proof stress x ultimate stress / (1 + n)), n = 0.05827 from ln(1 + uniform elongation)");
}

TEST_CASE("without ultimate stress or hardening the flow stress is the proof stress and says so") {
  BaseMaterial material = hardening_metal();
  material.hardening_exponent.reset();
  CHECK(flow_stress(material).value == 200e6);
  CHECK(flow_stress(material).remark ==
        "the proof stress, because neither a hardening exponent nor a uniform elongation is known");
  material = hardening_metal();
  material.ultimate_stress.reset();
  CHECK(flow_stress(material).value == 200e6);
  CHECK(flow_stress(material).remark == "the proof stress, because no ultimate stress is known");
}

TEST_CASE("a material without proof stress has no flow stress") {
  BaseMaterial material = hardening_metal();
  material.proof_stress.reset();
  CHECK_THROWS_MATCHES(
      flow_stress(material), OutOfDomain,
      Catch::Matchers::Message("Test metal: no flow stress without a proof stress. Add proof_stress, "
                               "with its source, to base_materials/test-metal.yaml."));
}
