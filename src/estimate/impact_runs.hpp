#pragma once
#include "estimate/side_setting.hpp"
#include "verdict/measure.hpp"

#include <vector>

namespace crushwright {

/// All structures of a case under one setting.
struct SettledStructures {
  SideSetting setting;
  std::vector<CrushCurve> curves;   ///< one per structure of its own; mirrored structures share
  std::vector<StructureView> views; ///< one per structure, as in the case
};

/// Curves of the first `count` settings (1 is nominal alone, 5 leaves the stacked ones out); the views point into
/// `structures`, which must outlive the result.
std::vector<SettledStructures> settle(const std::vector<StructureModel>& structures, const ScatterSet& scatter,
                                      double level, std::size_t count = setting_count);

/// The values of one impact's limits on every side, and what the structures did.
struct JudgedImpact {
  std::vector<Check> checks;        ///< of the limits that name this impact, in case order
  std::vector<RunOutcome> outcomes; ///< nominal, weak, strong, stacked weak, stacked strong; the worst of the runs
  ImpactMotion nominal;
};

/// Whether a run keeps what the structures did on every side, or at nominal alone.
enum class Outcomes { every_side, nominal };

/// Runs one impact on every setting, with masses and speed at the ends of their tolerances on the sides.
/// @param energy_factor  on the available energy [-].   @param with_stacked  false leaves the stacked settings out.
JudgedImpact run_impact(const CrashCase& crash_case, const ImpactInput& impact,
                        const std::vector<SettledStructures>& settled, double energy_factor, bool with_stacked,
                        Outcomes outcomes = Outcomes::every_side);

} // namespace crushwright
