#include "column_check/crush_stage.hpp"

#include <algorithm>
#include <limits>

namespace crushwright {

ColumnUnderForce column_under_force(const BeamColumn& column, const std::vector<Layer>& layers,
                                    const ColumnLoading& loading, const BoltPattern* bolts) {
  const ForceLine line = force_line(loading);
  const StandingColumn standing = standing_column(column, layers);
  ColumnUnderForce worst;
  worst.angle = loading.angle;
  worst.bolts_stated = bolts != nullptr;
  worst.stability_reserve = std::numeric_limits<double>::infinity();
  for (const CrushStage& stage : crush_stages(standing, layers, loading)) {
    const SectionUse use = worst_section(standing, stage, line);
    if (worst.force == 0 || use.use > worst.section.use) {
      worst.section = use;
      worst.crush = stage.crush;
      worst.force = stage.force;
    }
    if (bolts != nullptr)
      worst.bolt_use = std::max(worst.bolt_use, bolt_use(standing, stage, line, *bolts));
    const CriticalForces critical = critical_forces(standing, stage, line);
    const double reserve = std::min(critical.buckling, critical.tilting) / stage.force - 1;
    if (reserve < worst.stability_reserve) {
      worst.stability_reserve = reserve;
      worst.buckling_force = critical.buckling;
      worst.tilting_force = critical.tilting;
    }
  }
  return worst;
}

} // namespace crushwright
