#pragma once
#include "crushwright/estimate.hpp"

#include <vector>

namespace crushwright {

/// A case judged for a search: the verdict of judge_case to the last digit and a few nominal figures, without stacked
/// sides, histories and what each structure did on each side.
struct QuickJudgement {
  Verdict verdict;
  double peak_force = 0;                 ///< greatest over impacts and structures, nominal [N]
  double peak_crush = 0;                 ///< [m]
  double specific_energy_absorption = 0; ///< of the first structure, as StructureCurves [J/kg]
};
QuickJudgement quick_judgement(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                               const ScatterSet& scatter);

/// The smallest margin over all limits at nominal alone: the smallest over the sides cannot be larger [-].
double nominal_margin(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                      const ScatterSet& scatter);

/// As structure_models without the evidence tables and the warnings that come from them.
std::vector<StructureModel> bare_structure_models(const CrashCase& crash_case, const Catalogue& catalogue);

} // namespace crushwright
