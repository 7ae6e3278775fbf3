#include "crushwright/scaling_law.hpp"

namespace crushwright {

std::optional<double> basis_stress(const BaseMaterial& material, StressBasis basis) {
  switch (basis) {
  case StressBasis::proof_stress:
    return material.proof_stress ? std::optional(material.proof_stress->value) : std::nullopt;
  case StressBasis::flow_stress:
    return material.proof_stress ? std::optional(flow_stress(material).value) : std::nullopt;
  case StressBasis::ultimate_stress:
    return material.ultimate_stress ? std::optional(material.ultimate_stress->value) : std::nullopt;
  }
  return std::nullopt;
}

std::string_view name_of(DensityBasis basis) {
  switch (basis) {
  case DensityBasis::nominal:
    return "nominal";
  case DensityBasis::true_:
    return "true";
  case DensityBasis::weighed:
    return "weighed";
  }
  return "";
}

std::string_view name_of(StressBasis basis) {
  switch (basis) {
  case StressBasis::proof_stress:
    return "proof_stress";
  case StressBasis::flow_stress:
    return "flow_stress";
  case StressBasis::ultimate_stress:
    return "ultimate_stress";
  }
  return "";
}

std::string_view name_of(DensificationDefinition definition) {
  switch (definition) {
  case DensificationDefinition::locking_strain:
    return "locking_strain";
  case DensificationDefinition::efficiency_strain:
    return "efficiency_strain";
  case DensificationDefinition::plateau_end:
    return "plateau_end";
  }
  return "";
}

} // namespace crushwright
