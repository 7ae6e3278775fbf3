#include "cell_property/cell_warnings.hpp"
#include "cell_property/gathered_laws.hpp"
#include "cell_property/strain_limit.hpp"
#include "crushwright/cell_curve.hpp"
#include "crushwright/cell_property.hpp"
#include "crushwright/coupon.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {

namespace {

std::string basis_remark(const LawQuestion& question, const LawOrigin& origin) {
  const double density = in_basis(question.cell, question.relative_density, origin.density_basis);
  return fmt::format("{} relative density {:.4g}, fitted {:g} to {:g}", name_of(origin.density_basis), density,
                     origin.fitted_relative_density.low, origin.fitted_relative_density.high);
}

std::string law_remark(const DensificationLaw& law) {
  return fmt::format("{:g} - {:g} x relative density, {}", law.intercept, law.slope, name_of(law.definition));
}

std::string law_remark(const PowerLaw& law) {
  return fmt::format("{:.4g} x relative density ^ {:.4g}", law.coefficient, law.exponent);
}

std::string mismatch_remark(const LawQuestion& question, const LawOrigin& origin) {
  std::string remark;
  if (!origin.material.empty() && origin.material != question.material.id) {
    remark += fmt::format("; fitted on {}", origin.material);
  }
  if (!origin.process.empty() && origin.process != question.material.process) {
    remark += fmt::format("; built by {}", origin.process);
  }
  return remark;
}

std::string measurement_remark(const std::optional<Measurement>& measurement) {
  if (!measurement) {
    return {};
  }
  std::string text = fmt::format("; {} specimens in {} files", measurement->specimens, measurement->files.size());
  if (measurement->exponent_assumed) {
    text += " at one density, exponent assumed";
  } else if (measurement->exponent_range) {
    text += fmt::format(", exponent {:.3g} to {:.3g} (95 %)", measurement->exponent_range->low,
                        measurement->exponent_range->high);
  }
  return text;
}

std::string computation_remark(const std::optional<Computation>& computation) {
  if (!computation) {
    return "";
  }
  const std::string residual = fmt::format("law within {:.2g} % of the computed points, crushwright {}",
                                           100 * computation->largest_residual, computation->version);
  if (computation->method == "frame") {
    return "; computed as a frame of beams; " + residual;
  }
  return fmt::format("; computed with {} voxels an edge, extrapolated by {:.2g} % at most; {}", computation->grid,
                     100 * computation->spread, residual);
}

template <class Law>
PropertyEvidence evidence_of(const LawQuestion& question, const RatedLaw<Law>& rated, const std::string& basis) {
  const LawOrigin& origin = rated.law.origin;
  PropertyEvidence evidence;
  evidence.evidence = origin.evidence;
  evidence.law = origin.id;
  evidence.value = rated.value;
  evidence.inside_fitted_range = rated.rank.inside;
  evidence.coefficient_of_variation = origin.coefficient_of_variation;
  evidence.remark = law_remark(rated.law) + basis + "; " + basis_remark(question, origin) +
                    mismatch_remark(question, origin) + computation_remark(origin.computation) +
                    measurement_remark(origin.measurement) + (origin.remark.empty() ? "" : "; " + origin.remark);
  evidence.source = origin.source;
  return evidence;
}

std::string stress_remark(const LawQuestion& question, StressBasis basis) {
  std::string remark =
      fmt::format(" x {} {:.4g} MPa", name_of(basis), basis_stress(question.material, basis).value() / 1e6);
  if (basis == StressBasis::flow_stress) {
    remark += fmt::format(" ({})", flow_stress(question.material).remark);
  }
  return remark;
}

template <class Law>
CellProperty property_of(const LawQuestion& question, const std::vector<RatedLaw<Law>>& rated) {
  CellProperty property;
  for (const RatedLaw<Law>& law : rated) {
    property.all.push_back(evidence_of(question, law, ""));
  }
  if (!rated.empty()) {
    property.value = rated.front().value;
    property.reason = reason_for(rated.front().rank, rated.front().law.origin);
  }
  return property;
}

CellProperty plateau_of(const LawQuestion& question, const std::vector<RatedLaw<PowerLaw>>& rated) {
  CellProperty property = property_of(question, rated);
  for (std::size_t place = 0; place < rated.size(); ++place) {
    property.all[place] = evidence_of(question, rated[place], stress_remark(question, rated[place].law.stress_basis));
  }
  return property;
}

CellProperty first_peak_of(const LawQuestion& question, const std::vector<RatedLaw<PowerLaw>>& rated) {
  CellProperty property = property_of(question, rated);
  if (rated.empty()) {
    PropertyEvidence none;
    none.evidence = Evidence::prior;
    none.law = "no-first-peak";
    none.value = 1;
    none.remark = "no law for the first peak of this cell; taken as none";
    none.source = {"", Standing::common_practice};
    property.all.push_back(none);
    property.reason = "the catalogue entry has no law for the first peak";
  }
  // A ratio under 1 would say that the first maximum is no maximum.
  property.value = std::max(1.0, property.all.front().value);
  return property;
}

// Beams from node centre to node centre have longer levers than the metal has.
void warn_of_node_to_node(const char* what, const LawOrigin& used, std::vector<std::string>& warnings) {
  if (used.node_to_node) {
    warnings.push_back(
        fmt::format("The {} rests on '{}', a closed form of beams between node centres: real nodes make "
                    "the cell stiffer and stronger than that. It must not carry a verdict alone; test a "
                    "coupon or use computed evidence.",
                    what, used.id));
  }
}

// No arrangement of a solid carries more than its own share of the section at yield.
void warn_of_squash_load(const LawQuestion& question, const RatedLaw<PowerLaw>& used,
                         std::vector<std::string>& warnings) {
  const double squash = question.relative_density * basis_stress(question.material, used.law.stress_basis).value();
  if (used.value > squash) {
    warnings.push_back(
        fmt::format("The plateau stress by '{}', {:.4g} MPa, exceeds relative density times {}, {:.4g} MPa: "
                    "the law does not hold at this relative density.",
                    used.law.origin.id, used.value / 1e6, name_of(used.law.stress_basis), squash / 1e6));
  }
}

double energy_to_efficiency_strain(const CellProperties& properties) {
  CellNumbers numbers;
  numbers.plateau_stress = properties.plateau_stress.value;
  numbers.elastic_modulus = properties.elastic_modulus.value;
  numbers.efficiency_strain = properties.efficiency_strain.value;
  numbers.packing_strain = properties.locking_strain.value;
  const CurveShapeInput input = curve_input(numbers, numbers.efficiency_strain);
  const CurveShape shape = curve_shape(input);
  StressStrain curve;
  for (std::size_t point = 0; point < CurveShape::points; ++point) {
    curve.strain.push_back(shape.strain[point]);
    curve.stress.push_back(shape.ratio[point] * properties.plateau_stress.value);
  }
  return energy_to(curve, input.efficiency_strain);
}

} // namespace

CellProperties cell_properties(const UnitCell& cell, const BaseMaterial& material, const std::string& direction,
                               double relative_density, std::optional<Evidence> asked) {
  if (!material.density) {
    throw OutOfDomain(
        fmt::format("{}: no density, so neither mass nor specific energy can be given. Add density, with "
                    "its source, to base_materials/{}.yaml.",
                    material.name, material.id));
  }
  const LawQuestion question{cell, material, direction, relative_density, asked};
  const GatheredLaws gathered = gather_laws(question);
  CellProperties properties;
  properties.cell = cell.id;
  properties.material = material.id;
  properties.direction = direction;
  properties.relative_density = relative_density;
  properties.nominal_relative_density = in_basis(cell, relative_density, DensityBasis::nominal);
  properties.density = relative_density * material.density->value;
  properties.elastic_modulus = property_of(question, gathered.elastic_modulus);
  properties.plateau_stress = plateau_of(question, gathered.plateau_stress);
  properties.first_peak_ratio = first_peak_of(question, gathered.first_peak_ratio);
  properties.locking_strain = property_of(question, gathered.locking_strain);
  properties.efficiency_strain = property_of(question, gathered.efficiency_strain);
  properties.plateau_end_strain = property_of(question, gathered.plateau_end);
  if (gathered.plateau_end.empty()) {
    properties.plateau_end_strain.reason = "the catalogue entry has no law for it; the crush curve gives it";
  }
  properties.warnings = cell_warnings(cell, material, properties);
  warn_of_node_to_node("elastic modulus", gathered.elastic_modulus.front().law.origin, properties.warnings);
  warn_of_node_to_node("plateau stress", gathered.plateau_stress.front().law.origin, properties.warnings);
  warn_of_squash_load(question, gathered.plateau_stress.front(), properties.warnings);
  properties.efficiency_strain.value =
      std::min(properties.efficiency_strain.value, greatest_efficiency_strain(properties.locking_strain.value));
  properties.specific_energy_absorption = energy_to_efficiency_strain(properties) / properties.density;
  return properties;
}

} // namespace crushwright
