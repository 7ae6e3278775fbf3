#include "crushwright/estimate.hpp"
#include "crash_case/unconfirmed.hpp"
#include "crushwright/errors.hpp"
#include "estimate/impact_figures.hpp"
#include "estimate/packaging_notes.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {
namespace {

void add_once(std::vector<std::string>& warnings, const std::string& warning) {
  if (std::find(warnings.begin(), warnings.end(), warning) == warnings.end())
    warnings.push_back(warning);
}

std::vector<std::string> warnings_of(const CrashCase& crash_case, const Estimate& estimate) {
  std::vector<std::string> warnings;
  for (const StructureModel& structure : estimate.structures)
    for (const std::string& warning : structure.warnings)
      add_once(warnings, warning);
  if (crash_case.limits.empty())
    add_once(warnings, "The case states no limit, so there is nothing to pass: the verdict stays open.");
  for (const ImpactOutcome& impact : estimate.deciding.impacts)
    for (const RunOutcome& side : impact.sides)
      for (const StructureOutcome& structure : side.structures)
        if (structure.bottomed && !side.stacked)
          add_once(warnings, fmt::format("{}: {} bottoms out on the {} side; beyond that the force is set by solid "
                                         "metal and is only indicated.",
                                         impact.id, structure.structure, name_of(side.side)));
  for (const std::string& sentence : unconfirmed(crash_case))
    add_once(warnings, sentence);
  for (const ImpactOutcome& impact : estimate.deciding.impacts)
    for (const std::string& note : impact.notes)
      add_once(warnings, note);
  for (const std::string& warning : warnings_of_clearances(estimate))
    add_once(warnings, warning);
  return warnings;
}

/// Says at each open limit of the deciding set which measurement would close it.
void add_closing_measurements(const CrashCase& crash_case, Estimate& estimate) {
  const ScatterSet& scatter = crash_case.scatter_sets[crash_case.deciding_set];
  for (Check& check : estimate.deciding.verdict.checks) {
    const std::string closing = what_would_close(crash_case, estimate.structures, scatter, check);
    if (!closing.empty())
      check.note += "; " + closing;
  }
}

bool rests_on_tests(const CellProperties& properties) {
  for (const CellProperty* property :
       {&properties.elastic_modulus, &properties.plateau_stress, &properties.first_peak_ratio,
        &properties.locking_strain, &properties.efficiency_strain})
    if (!property->all.empty() && property->all.front().evidence == Evidence::measured)
      return true;
  return false;
}

bool rests_on_tests(const std::vector<StructureModel>& structures) {
  for (const StructureModel& structure : structures)
    for (const CellAtStation& cell : structure.cells)
      if (rests_on_tests(cell.properties))
        return true;
  return false;
}

/// A case that only measured laws can carry, such as one that asks for them, has no other verdict: no checks then.
Verdict verdict_without_tests(const CrashCase& crash_case, const Catalogue& catalogue) {
  try {
    const std::vector<StructureModel> structures =
        structure_models(crash_case, catalogue.without(Evidence::measured));
    return judge_case(crash_case, structures, crash_case.scatter_sets[crash_case.deciding_set]).verdict;
  } catch (const InputError&) {
    return {};
  }
}

} // namespace

Estimate estimate(const CrashCase& crash_case, const Catalogue& catalogue) {
  Estimate result;
  result.structures = structure_models(crash_case, catalogue);
  for (std::size_t i = 0; i < crash_case.scatter_sets.size(); ++i) {
    const ScatterSet& scatter = crash_case.scatter_sets[i];
    if (i == crash_case.deciding_set)
      result.deciding = judge_with_figures(crash_case, result.structures, scatter);
    else
      result.others.push_back(judge_case(crash_case, result.structures, scatter));
  }
  if (rests_on_tests(result.structures))
    result.without_measured = verdict_without_tests(crash_case, catalogue);
  add_closing_measurements(crash_case, result);
  result.warnings = warnings_of(crash_case, result);
  return result;
}

} // namespace crushwright
