#include "homogenisation/hardening_curve.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {

namespace {

// With the points denser at the start, where the curve bends most, chords stay within 0.1 % of a Voce curve whose
// stress doubles.
constexpr int intervals = 32;

double rising_square(int interval) {
  const double part = static_cast<double>(interval) / intervals;
  return part * part;
}

// Root of a function that falls through zero between two ends.
template <typename Function>
double falling_root(const Function& function, double low, double high) {
  for (int halving = 0; halving < 200; ++halving) {
    const double middle = 0.5 * (low + high);
    (function(middle) > 0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

template <typename Law>
HardeningCurve sampled(const Law& stress_over_yield, double last_plastic_strain) {
  HardeningCurve curve;
  for (int interval = 0; interval <= intervals; ++interval) {
    const double plastic_strain = last_plastic_strain * rising_square(interval);
    curve.plastic_strain.push_back(plastic_strain);
    curve.stress.push_back(interval == 0 ? 1.0 : stress_over_yield(plastic_strain));
  }
  return curve;
}

MetalCurve perfectly_plastic(const std::string& reason) {
  return {{{0.0}, {1.0}}, "perfectly plastic at the proof stress: " + reason};
}

double in_unit_range(const BaseMaterial& material, const Quantity& quantity, const char* what) {
  if (!(quantity.value > 0 && quantity.value < 1)) {
    throw OutOfDomain(fmt::format("{}: {} {} is not between 0 and 1. Correct it in base_materials/{}.yaml.",
                                  material.name, what, quantity.value, material.id));
  }
  return quantity.value;
}

// σ = K (ε0 + p)^n with total strain near ε0 + p: the load is greatest at ε0 + p = n, so that
// σu / σy = (n / ε0)^n exp(ε0 - n), which falls from infinity to 1 as ε0 goes from 0 to n.
MetalCurve swift_curve(const BaseMaterial& material, double ratio) {
  const double exponent = in_unit_range(material, *material.hardening_exponent, "hardening exponent");
  const double offset = falling_root(
      [&](double trial) { return exponent * std::log(exponent / trial) + trial - exponent - std::log(ratio); },
      exponent * 1e-12, exponent);
  const auto law = [&](double plastic_strain) { return std::pow((offset + plastic_strain) / offset, exponent); };
  return {sampled(law, exponent - offset),
          fmt::format("power law on true stress and plastic strain, (1 + p/{:.4g})^{:.4g}, through proof and "
                      "ultimate stress; flat beyond p = {:.4g}, where a bar necks",
                      offset, exponent, exponent - offset)};
}

struct GreatestLoad {
  double plastic_strain; ///< true [-]
  double stress;         ///< true, over the proof stress [-]
  double slope;          ///< d stress / d plastic strain there, over the proof stress [-]
};

// Considère: at the greatest load the slope of true stress over true strain equals the true stress. The elastic part
// of the strain is taken off where Young's modulus is known.
GreatestLoad greatest_load(const BaseMaterial& material, double ratio, double elongation) {
  const double stress = ratio * (1 + elongation);
  const double elastic_strain =
      material.youngs_modulus ? stress * material.proof_stress->value / material.youngs_modulus->value : 0.0;
  return {std::log1p(elongation) - elastic_strain, stress, stress / (1 - elastic_strain)};
}

MetalCurve voce_curve(const BaseMaterial& material, double ratio) {
  const double elongation = in_unit_range(material, *material.uniform_elongation, "uniform elongation");
  const GreatestLoad load = greatest_load(material, ratio, elongation);
  if (!(load.plastic_strain > 0)) {
    return perfectly_plastic("the uniform elongation leaves no plastic strain after the elastic one");
  }
  const double rise = load.stress - 1;
  const double wanted = load.slope * load.plastic_strain / rise; // x / (e^x - 1), x = p_u / p0
  if (wanted >= 1) {
    return {{{0.0, load.plastic_strain}, {1.0, load.stress}},
            fmt::format("straight from the proof stress to the true stress at the greatest load, p = {:.4g}: no "
                        "saturating law meets proof stress, ultimate stress and uniform elongation together; flat "
                        "beyond",
                        load.plastic_strain)};
  }
  const double x = falling_root([&](double trial) { return trial / std::expm1(trial) - wanted; }, 1e-9, 700.0);
  const double saturation = rise / -std::expm1(-x);
  const double scale = load.plastic_strain / x;
  const auto law = [&](double plastic_strain) { return 1 - saturation * std::expm1(-plastic_strain / scale); };
  return {
      sampled(law, load.plastic_strain),
      fmt::format("saturating law on true stress and plastic strain, 1 + {:.4g} (1 - exp(-p/{:.4g})), through "
                  "proof stress, ultimate stress and uniform elongation; flat beyond p = {:.4g}, where a bar necks",
                  saturation, scale, load.plastic_strain)};
}

} // namespace

MetalCurve metal_curve(const BaseMaterial& material) {
  if (!material.proof_stress || !(material.proof_stress->value > 0)) {
    throw OutOfDomain(fmt::format("{}: no flow curve without a proof stress above 0. Add proof_stress, with its "
                                  "source, to base_materials/{}.yaml.",
                                  material.name, material.id));
  }
  if (!material.ultimate_stress) {
    return perfectly_plastic("no ultimate stress is known");
  }
  const double ratio = material.ultimate_stress->value / material.proof_stress->value;
  if (!(ratio > 1)) {
    return perfectly_plastic("the ultimate stress is not above it");
  }
  if (material.hardening_exponent) {
    return swift_curve(material, ratio);
  }
  if (material.uniform_elongation) {
    return voce_curve(material, ratio);
  }
  return perfectly_plastic("neither a hardening exponent nor a uniform elongation is known; low by what the metal "
                           "hardens");
}

FlowPoint flow_point(const HardeningCurve& curve, double plastic_strain) {
  const auto after = std::upper_bound(curve.plastic_strain.begin(), curve.plastic_strain.end(), plastic_strain);
  const auto right = static_cast<std::size_t>(after - curve.plastic_strain.begin());
  if (right == 0) {
    return {curve.stress.front(), 0.0};
  }
  if (right == curve.plastic_strain.size()) {
    return {curve.stress.back(), 0.0};
  }
  const double slope = (curve.stress[right] - curve.stress[right - 1]) /
                       (curve.plastic_strain[right] - curve.plastic_strain[right - 1]);
  return {curve.stress[right - 1] + slope * (plastic_strain - curve.plastic_strain[right - 1]), slope};
}

void check_hardening(const HardeningCurve& curve) {
  if (curve.stress.empty() || curve.stress.size() != curve.plastic_strain.size()) {
    throw OutOfDomain(fmt::format("hardening curve with {} plastic strains and {} stresses: give as many of the one "
                                  "as of the other, at least one",
                                  curve.plastic_strain.size(), curve.stress.size()));
  }
  if (curve.plastic_strain.front() != 0 || curve.stress.front() != 1) {
    throw OutOfDomain(
        fmt::format("hardening curve starts at plastic strain {} and stress {} over the yield stress: it "
                    "must start at 0 and 1",
                    curve.plastic_strain.front(), curve.stress.front()));
  }
  for (std::size_t point = 1; point < curve.stress.size(); ++point) {
    const bool rises = curve.plastic_strain[point] > curve.plastic_strain[point - 1];
    const bool holds = curve.stress[point] >= curve.stress[point - 1];
    if (!rises || !holds || !std::isfinite(curve.plastic_strain[point]) || !std::isfinite(curve.stress[point])) {
      throw OutOfDomain(
          fmt::format("hardening curve at point {}: plastic strain {}, stress {} over the yield stress; "
                      "plastic strain must rise and stress must not fall",
                      point, curve.plastic_strain[point], curve.stress[point]));
    }
  }
}

} // namespace crushwright
