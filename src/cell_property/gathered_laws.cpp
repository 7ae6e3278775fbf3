#include "cell_property/gathered_laws.hpp"
#include "crushwright/errors.hpp"
#include "quantities/nearest_spelling.hpp"
#include "unit_cell/class_law.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {

namespace {

template <class Law>
void add_class_law(std::vector<Law>& laws, const std::optional<Law>& class_law) {
  const bool listed = class_law && std::any_of(laws.begin(), laws.end(), [&class_law](const Law& law) {
                        return law.origin.id == class_law->origin.id;
                      });
  if (class_law && !listed) {
    laws.push_back(*class_law);
  }
}

template <class Law>
std::vector<LawOrigin> origins_of(const std::vector<Law>& laws) {
  std::vector<LawOrigin> origins;
  for (const Law& law : laws) {
    origins.push_back(law.origin);
  }
  return origins;
}

template <class Law, class BaseValue>
std::vector<RatedLaw<Law>> rate(const LawQuestion& question, const std::vector<Law>& laws, BaseValue&& base_value) {
  std::vector<RatedLaw<Law>> rated;
  for (const RankedOrigin& rank : ranked(question, origins_of(laws))) {
    const Law& law = laws[rank.place];
    const double density = in_basis(question.cell, question.relative_density, law.origin.density_basis);
    rated.push_back({law, rank, evaluate(law, density).value * base_value(law)});
  }
  return rated;
}

std::string directions_of(const std::vector<PowerLaw>& laws) {
  std::vector<std::string> directions;
  for (const PowerLaw& law : laws) {
    if (std::find(directions.begin(), directions.end(), law.origin.direction) == directions.end()) {
      directions.push_back(law.origin.direction);
    }
  }
  return directions.empty() ? "none" : comma_list(directions);
}

void require_law(bool found, const LawQuestion& question, const std::string& property,
                 const std::vector<PowerLaw>& laws) {
  if (!found) {
    throw OutOfDomain(
        fmt::format("{}: no law for the {} when crushed along {}. Directions with a law: {}. Turn the cell, "
                    "or add a law to unit_cells/{}.yaml.",
                    question.cell.name, property, question.direction, directions_of(laws), question.cell.id));
  }
}

void require_youngs_modulus(const LawQuestion& question) {
  if (!question.material.youngs_modulus) {
    throw OutOfDomain(
        fmt::format("{0}: no Young's modulus, so {1} has no stiffness. Add youngs_modulus, with its source, "
                    "to base_materials/{2}.yaml.",
                    question.material.name, question.cell.name, question.material.id));
  }
}

std::vector<PowerLaw> usable_strength_laws(const LawQuestion& question, const std::vector<PowerLaw>& laws) {
  std::vector<PowerLaw> usable;
  std::vector<std::string> lacking;
  for (const PowerLaw& law : laws) {
    if (basis_stress(question.material, law.stress_basis)) {
      usable.push_back(law);
    } else {
      lacking.emplace_back(law.stress_basis == StressBasis::ultimate_stress ? "ultimate_stress" : "proof_stress");
    }
  }
  if (usable.empty() && !lacking.empty()) {
    std::sort(lacking.begin(), lacking.end());
    lacking.erase(std::unique(lacking.begin(), lacking.end()), lacking.end());
    throw OutOfDomain(fmt::format("{}: without {} no strength law of {} can be used. Add it, with its source, to "
                                  "base_materials/{}.yaml.",
                                  question.material.name, comma_list(lacking), question.cell.name,
                                  question.material.id));
  }
  return usable;
}

std::vector<DensificationLaw> laws_of(const UnitCell& cell, DensificationDefinition definition) {
  std::vector<DensificationLaw> laws;
  for (const DensificationLaw& law : cell.densification) {
    if (law.definition == definition) {
      laws.push_back(law);
    }
  }
  return laws;
}

void gather_densification(const LawQuestion& question, GatheredLaws& gathered) {
  std::vector<DensificationLaw> locking = laws_of(question.cell, DensificationDefinition::locking_strain);
  std::vector<DensificationLaw> efficiency = laws_of(question.cell, DensificationDefinition::efficiency_strain);
  add_class_law(locking, std::optional(class_locking_strain()));
  add_class_law(efficiency, std::optional(class_efficiency_strain()));
  const auto bare = [](const DensificationLaw&) { return 1.0; };
  gathered.locking_strain = rate(question, locking, bare);
  gathered.efficiency_strain = rate(question, efficiency, bare);
  gathered.plateau_end = rate(question, laws_of(question.cell, DensificationDefinition::plateau_end), bare);
}

std::string kinds_of(const std::vector<RatedLaw<PowerLaw>>& laws) {
  std::vector<std::string> kinds;
  for (const RatedLaw<PowerLaw>& rated : laws) {
    const std::string kind(name_of(rated.law.origin.evidence));
    if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) {
      kinds.push_back(kind);
    }
  }
  return comma_list(kinds);
}

// Only the plateau decides: no entry has its densification computed, say, and a case would never get what it asks.
void require_asked(const LawQuestion& question, const GatheredLaws& gathered) {
  if (!question.asked || gathered.plateau_stress.front().rank.asked) {
    return;
  }
  const std::string kind(name_of(*question.asked));
  throw OutOfDomain(fmt::format(
      "{}: no {} law for the plateau stress when crushed along {}. Evidence that there is: {}. Ask for one of these, "
      "or add such a law to unit_cells/{}.yaml{}.",
      question.cell.name, kind, question.direction, kinds_of(gathered.plateau_stress), question.cell.id,
      *question.asked == Evidence::computed ? " with `crushwright cell FILE --laws LOW HIGH --write`" : ""));
}

} // namespace

GatheredLaws gather_laws(const LawQuestion& question) {
  require_direction(question.direction);
  require_youngs_modulus(question);
  std::vector<PowerLaw> stiffness = question.cell.elastic_modulus;
  std::vector<PowerLaw> strength = question.cell.plateau_stress;
  add_class_law(stiffness, class_elastic_modulus(question.cell.behaviour));
  add_class_law(strength, class_plateau_stress(question.cell.behaviour));

  GatheredLaws gathered;
  const double youngs_modulus = question.material.youngs_modulus->value;
  gathered.elastic_modulus = rate(question, stiffness, [&](const PowerLaw&) { return youngs_modulus; });
  require_law(!gathered.elastic_modulus.empty(), question, "elastic modulus", stiffness);
  gathered.plateau_stress = rate(question, usable_strength_laws(question, strength), [&](const PowerLaw& law) {
    return *basis_stress(question.material, law.stress_basis);
  });
  require_law(!gathered.plateau_stress.empty(), question, "plateau stress", strength);
  gathered.first_peak_ratio = rate(question, question.cell.first_peak_ratio, [](const PowerLaw&) { return 1.0; });
  gather_densification(question, gathered);
  require_asked(question, gathered);
  return gathered;
}

} // namespace crushwright
