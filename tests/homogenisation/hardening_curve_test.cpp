#include "homogenisation/hardening_curve.hpp"

#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;

namespace {

Quantity known(double value) {
  Quantity quantity;
  quantity.value = value;
  return quantity;
}

// Invented numbers.
BaseMaterial test_metal() {
  BaseMaterial material;
  material.id = "test-metal";
  material.name = "Test metal";
  material.youngs_modulus = known(70e9);
  material.proof_stress = known(200e6);
  material.ultimate_stress = known(280e6);
  return material;
}

struct Load {
  double greatest = 0;   ///< engineering stress over the proof stress
  double elongation = 0; ///< engineering, where it is greatest
};

// A tensile bar of the curve: engineering stress σ exp(-ε), ε the true strain with its elastic part.
Load tensile_test(const HardeningCurve& curve, double yield_strain) {
  Load load;
  const double last = curve.plastic_strain.back() * 1.2;
  for (int step = 0; step <= 20000; ++step) {
    const double plastic = last * step / 20000;
    const double stress = flow_point(curve, plastic).stress;
    const double strain = plastic + stress * yield_strain;
    if (stress * std::exp(-strain) > load.greatest) {
      load = {stress * std::exp(-strain), std::expm1(strain)};
    }
  }
  return load;
}

} // namespace

TEST_CASE("a bar of the saturating law carries the ultimate stress at the uniform elongation") {
  BaseMaterial material = test_metal();
  material.uniform_elongation = known(0.08);
  const MetalCurve metal = metal_curve(material);
  const Load load = tensile_test(metal.curve, 200e6 / 70e9);
  CHECK(load.greatest == Approx(1.4).epsilon(1e-3));
  CHECK(load.elongation == Approx(0.08).epsilon(0.05)); // the chords of 32 points place a flat maximum no better
  CHECK(metal.curve.stress.front() == 1);
  CHECK(metal.remark.find("saturating law") == 0);
  CHECK_NOTHROW(check_hardening(metal.curve));
}

TEST_CASE("a bar of the power law carries the ultimate stress and its slope at the end is its stress") {
  BaseMaterial material = test_metal();
  material.hardening_exponent = known(0.15);
  material.uniform_elongation = known(0.3); // the exponent goes first
  const MetalCurve metal = metal_curve(material);
  const Load load = tensile_test(metal.curve, 0);
  CHECK(load.greatest == Approx(1.4).epsilon(1e-3));
  CHECK(metal.remark.find("power law") == 0);
  const HardeningCurve& curve = metal.curve;
  const std::size_t last = curve.stress.size() - 1;
  const double chord =
      (curve.stress[last] - curve.stress[last - 1]) / (curve.plastic_strain[last] - curve.plastic_strain[last - 1]);
  CHECK(chord == Approx(curve.stress[last]).epsilon(0.04));
}

TEST_CASE("flow curves never fall and bend downwards") {
  BaseMaterial material = test_metal();
  for (const double elongation : {0.03, 0.08, 0.2, 0.4}) {
    material.uniform_elongation = known(elongation);
    const HardeningCurve curve = metal_curve(material).curve;
    CHECK_NOTHROW(check_hardening(curve));
    double slope = 1e9;
    for (std::size_t point = 1; point < curve.stress.size(); ++point) {
      const double next = (curve.stress[point] - curve.stress[point - 1]) /
                          (curve.plastic_strain[point] - curve.plastic_strain[point - 1]);
      CHECK(next <= slope * (1 + 1e-9));
      slope = next;
    }
  }
}

TEST_CASE("without what a law needs the metal is perfectly plastic and the remark says why") {
  BaseMaterial material = test_metal();
  CHECK(metal_curve(material).remark == "perfectly plastic at the proof stress: neither a hardening exponent nor a "
                                        "uniform elongation is known; low by what the metal hardens");
  CHECK(metal_curve(material).curve.stress == std::vector<double>{1.0});
  material.ultimate_stress.reset();
  CHECK(metal_curve(material).remark == "perfectly plastic at the proof stress: no ultimate stress is known");
  material.proof_stress.reset();
  CHECK_THROWS_AS(metal_curve(material), OutOfDomain);
}

TEST_CASE("a saturating law that cannot meet its three numbers becomes a straight line that says so") {
  BaseMaterial material = test_metal();
  material.ultimate_stress = known(202e6); // hardly above the proof stress at a large elongation
  material.uniform_elongation = known(0.3);
  const MetalCurve metal = metal_curve(material);
  CHECK(metal.remark.find("straight from the proof stress") == 0);
  CHECK(metal.curve.stress.back() == Approx(1.01 * 1.3));
}

TEST_CASE("a hardening curve that falls or starts elsewhere is refused with its values") {
  CHECK_THROWS_AS(check_hardening({{}, {}}), OutOfDomain);
  CHECK_THROWS_AS(check_hardening({{0, 0.1}, {1}}), OutOfDomain);
  CHECK_THROWS_WITH(
      check_hardening({{0, 0.1}, {1, 0.9}}),
      "hardening curve at point 1: plastic strain 0.1, stress 0.9 over the yield stress; plastic strain "
      "must rise and stress must not fall");
  CHECK_THROWS_AS(check_hardening({{0.1, 0.2}, {1, 1.1}}), OutOfDomain);
}
