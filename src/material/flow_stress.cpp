#include "crushwright/errors.hpp"
#include "crushwright/material.hpp"

#include <cmath>
#include <fmt/format.h>

namespace crushwright {

namespace {

struct Exponent {
  double value;
  std::string remark;
};

// For a power law on true stress and strain the load is greatest where the true strain equals n.
std::optional<Exponent> hardening_exponent(const BaseMaterial& material) {
  if (material.hardening_exponent) {
    return Exponent{material.hardening_exponent->value, "the stated hardening exponent"};
  }
  if (material.uniform_elongation) {
    return Exponent{std::log1p(material.uniform_elongation->value), "ln(1 + uniform elongation)"};
  }
  return std::nullopt;
}

} // namespace

FlowStress flow_stress(const BaseMaterial& material) {
  if (!material.proof_stress) {
    throw OutOfDomain(fmt::format("{}: no flow stress without a proof stress. Add proof_stress, with its source, to "
                                  "base_materials/{}.yaml.",
                                  material.name, material.id));
  }
  const double proof_stress = material.proof_stress->value;
  if (!material.ultimate_stress) {
    return {proof_stress, "the proof stress, because no ultimate stress is known"};
  }
  const std::optional<Exponent> exponent = hardening_exponent(material);
  if (!exponent) {
    return {proof_stress, "the proof stress, because neither a hardening exponent nor a uniform elongation is known"};
  }
  const double value = std::sqrt(proof_stress * material.ultimate_stress->value / (1 + exponent->value));
  return {value, fmt::format("sqrt(proof stress x ultimate stress / (1 + n)), n = {:.4g} from {}", exponent->value,
                             exponent->remark)};
}

} // namespace crushwright
