#include "crushwright/material.hpp"

namespace crushwright {

std::vector<std::string> missing_properties(const BaseMaterial& material) {
  std::vector<std::string> missing;
  const auto note = [&missing](bool known, const char* sentence) {
    if (!known) {
      missing.emplace_back(sentence);
    }
  };
  note(material.density.has_value(), "no density: mass and specific energy cannot be given");
  note(material.youngs_modulus.has_value(),
       "no Young's modulus: neither stiffness nor the elastic rise can be given");
  note(material.poissons_ratio.has_value(), "no Poisson's ratio: bounds on the stiffness cannot be checked");
  note(material.proof_stress.has_value(),
       "no proof stress: laws on the proof stress or the flow stress cannot be used");
  note(material.ultimate_stress.has_value(), "no ultimate stress: the flow stress falls back to the proof stress");
  note(material.hardening_exponent.has_value() || material.uniform_elongation.has_value(),
       "no hardening exponent and no uniform elongation: the flow stress falls back to the proof stress");
  note(material.fracture_elongation.has_value(),
       "no fracture elongation: it cannot be said whether struts fold or break");
  note(material.rate_factor || material.energy_rate_law || material.peak_rate_law,
       "no rate factor: strength is taken as the same at impact speed");
  note(!material.temperature_factors.empty(), "no strength factors: hot service cannot be judged");
  return missing;
}

} // namespace crushwright
