#include "cell_property/cell_warnings.hpp"
#include "cell_property/strain_limit.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <utility>

namespace crushwright {

namespace {

// Two laws of a lattice that agree to within this are as good as the spread of published tests; beyond it one is
// wrong.
constexpr double notable_disagreement = 0.30;

// Under about 8 % elongation struts break rather than fold (docs/method/material.md).
constexpr double brittle_below = 0.08;

bool can_be_computed(const UnitCell& cell, const std::string& what) {
  // A foam has no geometry; a user's surface has one size, and so no law over a range.
  if (!is_sized(cell)) {
    return false;
  }
  // Honeycombs crush by folding, which no small-strain solid shows; their stiffness is computed.
  return what == "elastic modulus" || (what == "plateau stress" && cell.behaviour != CellBehaviour::folding);
}

/// What computes the cell's own law, where it can be.
void warn_of_uncomputed(const UnitCell& cell, const CellProperties& properties, std::vector<std::string>& warnings) {
  std::vector<std::string> lacking;
  for (const auto& [what, property] : {std::pair{"elastic modulus", &properties.elastic_modulus},
                                       std::pair{"plateau stress", &properties.plateau_stress}}) {
    const auto computed = [](const PropertyEvidence& evidence) { return evidence.evidence == Evidence::computed; };
    const bool exists = std::any_of(property->all.begin(), property->all.end(), computed);
    if (property->all.front().evidence == Evidence::generic && !exists && can_be_computed(cell, what)) {
      lacking.emplace_back(what);
    }
  }
  if (!lacking.empty()) {
    warnings.push_back(fmt::format(
        "The {} of {} can be computed instead: `crushwright cell {} --relative-density {:.3g} "
        "--material {} --laws LOW HIGH`, and --write keeps the laws in a catalogue file of "
        "your own.",
        fmt::join(lacking, " and "), cell.name, cell.id, properties.relative_density, properties.material));
  }
}

void warn_of_evidence(const std::string& what, const CellProperty& property, std::vector<std::string>& warnings) {
  const PropertyEvidence& used = property.all.front();
  if (used.evidence == Evidence::generic || used.evidence == Evidence::prior) {
    warnings.push_back(fmt::format("The {} rests on {} evidence alone ('{}'). Test a coupon of the same build before "
                                   "relying on it.",
                                   what, name_of(used.evidence), used.law));
  }
  if (used.evidence == Evidence::computed && what == "plateau stress") {
    // The range of the blind tests in metal, docs/verification.md.
    warnings.push_back(
        fmt::format("The {} is computed, not measured ('{}'). Printed metal lattices of published tests "
                    "crushed at 0.34 to 1.26 of such predictions, more often below than above. Crush "
                    "coupons of your own build before relying on it.",
                    what, used.law));
  }
  if (!used.inside_fitted_range) {
    warnings.push_back(fmt::format("The {} is extrapolated: no law was fitted at this relative density, '{}' comes "
                                   "nearest.",
                                   what, used.law));
  }
}

void warn_of_disagreement(const std::string& what, const CellProperty& property, std::vector<std::string>& warnings) {
  const PropertyEvidence& used = property.all.front();
  for (std::size_t place = 1; place < property.all.size(); ++place) {
    const PropertyEvidence& other = property.all[place];
    const double difference = other.value / used.value - 1;
    if (other.inside_fitted_range && std::abs(difference) > notable_disagreement) {
      warnings.push_back(fmt::format("Two pieces of evidence for the {} disagree: '{}' gives {:+.0f} % against '{}', "
                                     "which is used.",
                                     what, other.law, 100 * difference, used.law));
    }
  }
}

void warn_of_material(const BaseMaterial& material, std::vector<std::string>& warnings) {
  if (!material.fracture_elongation) {
    warnings.push_back(fmt::format(
        "{} states no fracture elongation: it is not known whether the cell folds or breaks.", material.name));
  } else if (material.fracture_elongation->value < brittle_below) {
    warnings.push_back(
        fmt::format("{} breaks at {:.3g} % elongation, under 8 %: expect struts and walls to break rather "
                    "than fold, and a rough, lower plateau. Widen the scatter.",
                    material.name, 100 * material.fracture_elongation->value));
  }
}

void warn_of_first_peak(const UnitCell& cell, std::vector<std::string>& warnings) {
  if (cell.first_peak_ratio.empty() && cell.behaviour != CellBehaviour::bending) {
    warnings.push_back(
        fmt::format("{} usually shows a first peak above its plateau, and no law for it is known here: it "
                    "is taken as none. Check peak force with a coupon, or trigger the first layer.",
                    cell.name));
  }
}

// A computed cell that softens crushes row by row at the mean of its path; metals that harden hold more (docs/
// verification.md, blind predictions), up to the first collapse.
constexpr double softening_above = 1.5;

void warn_of_softening(const CellProperties& properties, std::vector<std::string>& warnings) {
  const double ratio = properties.first_peak_ratio.value;
  if (properties.plateau_stress.all.front().evidence == Evidence::computed && ratio > softening_above) {
    warnings.push_back(fmt::format(
        "The cell softens once it has collapsed: its computed plateau is the mean along its path, and its first "
        "collapse {:.1f} times that. Metals that harden were tested well above the mean: judge energy with the "
        "plateau, force with the first collapse, and test a coupon.",
        ratio));
  }
}

void warn_of_strain_limit(const CellProperties& properties, std::vector<std::string>& warnings) {
  const double limit = greatest_efficiency_strain(properties.locking_strain.value);
  if (properties.efficiency_strain.value > limit) {
    warnings.push_back(
        fmt::format("The efficiency strain {:.3f} is too close to the locking strain {:.3f}; {:.3f} is used.",
                    properties.efficiency_strain.value, properties.locking_strain.value, limit));
  }
}

} // namespace

std::vector<std::string> cell_warnings(const UnitCell& cell, const BaseMaterial& material,
                                       const CellProperties& properties) {
  std::vector<std::string> warnings;
  warn_of_evidence("elastic modulus", properties.elastic_modulus, warnings);
  warn_of_evidence("plateau stress", properties.plateau_stress, warnings);
  warn_of_evidence("efficiency strain", properties.efficiency_strain, warnings);
  warn_of_uncomputed(cell, properties, warnings);
  warn_of_disagreement("elastic modulus", properties.elastic_modulus, warnings);
  warn_of_disagreement("plateau stress", properties.plateau_stress, warnings);
  warn_of_disagreement("efficiency strain", properties.efficiency_strain, warnings);
  warn_of_first_peak(cell, warnings);
  warn_of_softening(properties, warnings);
  // The strength of a foam is measured on the foam: whether its walls break is already in it.
  if (cell.cell_class != CellClass::foam) {
    warn_of_material(material, warnings);
  }
  warn_of_strain_limit(properties, warnings);
  return warnings;
}

} // namespace crushwright
