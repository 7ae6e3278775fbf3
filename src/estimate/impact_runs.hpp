#pragma once
#include "estimate/impact_setup.hpp"
#include "estimate/side_setting.hpp"
#include "verdict/run_view.hpp"

#include <vector>

namespace crushwright {

/// All structures of a case under one setting.
struct SettledStructures {
  SideSetting setting;
  std::vector<CrushCurve> curves;     ///< one per structure of its own; mirrored structures share
  std::vector<StructureView> views;   ///< one per structure, as in the case
  std::vector<ColumnFigures> columns; ///< the views point into them
};

/// Curves of the first `count` settings (1 is nominal alone, 5 leaves the stacked ones out); the views point into
/// `structures`, which must outlive the result.
/// @param setup  of an impact that needs its own curves; null: the curves as they are without any impact.
std::vector<SettledStructures> settle(const std::vector<StructureModel>& structures, const ScatterSet& scatter,
                                      double level, std::size_t count = setting_count,
                                      const ImpactSetup* setup = nullptr);

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
/// @param setup  of this impact.   @param settled  with that setup where it needs its own curves.
JudgedImpact run_impact(const CrashCase& crash_case, const ImpactInput& impact, const ImpactSetup& setup,
                        const std::vector<SettledStructures>& settled, double energy_factor, bool with_stacked,
                        Outcomes outcomes = Outcomes::every_side);

} // namespace crushwright
