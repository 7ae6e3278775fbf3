#pragma once
#include "crushwright/quantity.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// Strength at a temperature over strength at room temperature.
struct TemperatureFactor {
  double temperature; ///< [K]
  double factor;      ///< [-], > 0
};

enum class RateForm {
  cowper_symonds, ///< 1 + (rate / D)^(1/q)
  johnson_cook    ///< 1 + C ln(rate / reference rate), 1 below the reference rate
};

/// Dynamic over quasi-static strength against strain rate.
struct RateLaw {
  RateForm form = RateForm::cowper_symonds;
  double first = 0;  ///< D [1/s] or C [-], > 0
  double second = 0; ///< q [-] or the reference rate [1/s], > 0
  Source source;
  bool operator==(const RateLaw&) const = default;
};

/// @param strain_rate  [1/s], >= 0.  @return at least 1.
double rate_factor(const RateLaw& law, double strain_rate);

/// An alloy in one condition, as built by one process. Properties without a source are absent, never guessed.
struct BaseMaterial {
  std::string id;        ///< the file's stem, for instance "AlSi10Mg-stress-relieved"
  std::string name;      ///< as shown
  std::string alloy;     ///< as the trade writes it
  std::string condition; ///< heat treatment
  std::string process;   ///< how it was built
  std::string description;
  std::optional<Quantity> density;             ///< [kg/m^3]
  std::optional<Quantity> youngs_modulus;      ///< [Pa]
  std::optional<Quantity> poissons_ratio;      ///< [-]
  std::optional<Quantity> proof_stress;        ///< 0.2 % proof stress [Pa]
  std::optional<Quantity> ultimate_stress;     ///< [Pa]
  std::optional<Quantity> uniform_elongation;  ///< [-]
  std::optional<Quantity> fracture_elongation; ///< [-]
  std::optional<Quantity> hardening_exponent;  ///< n of a power law on true stress and strain [-]
  std::optional<Quantity> rate_factor; ///< dynamic over quasi-static plateau; low and high state the interval [-]
  /// Laws that take the place of rate_factor: for energy checks and the nominal run, and for force checks.
  std::optional<RateLaw> energy_rate_law, peak_rate_law;
  std::vector<TemperatureFactor> temperature_factors; ///< rising temperature; empty when none is known
  Source temperature_factor_source;
};

/// Energy-equivalent flow stress for plastic folding, sqrt(σy σu / (1 + n)) [Pa]; docs/method/material.md.
///
/// n is the material's hardening exponent, or ln(1 + uniform elongation) when only that is known.
/// Without ultimate stress or either of those the answer is the proof stress, and the remark says so.
struct FlowStress {
  double value;       ///< [Pa]
  std::string remark; ///< how it was obtained, for the evidence table
};
FlowStress flow_stress(const BaseMaterial& material);

/// Strength factor at a service temperature, linear between the stated points.
/// @return absent when the material states none or the temperature lies outside the stated points.
std::optional<double> strength_factor(const BaseMaterial& material, double temperature);

/// What the program cannot do with this entry, one sentence each ("no ultimate stress: ...").
std::vector<std::string> missing_properties(const BaseMaterial& material);

} // namespace crushwright
