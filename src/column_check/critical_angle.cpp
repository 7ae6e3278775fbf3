#include "column_check/crush_stage.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crushwright {

double critical_angle(const BeamColumn& column, const std::vector<Layer>& layers, ColumnLoading loading,
                      const BoltPattern*) {
  loading.angle = 0;
  ForceLine line = force_line(loading);
  const StandingColumn standing = standing_column(column, layers);
  const std::vector<CrushStage> stages = crush_stages(standing, layers, loading);
  const auto collapses = [&](double angle) {
    line.slope = std::tan(angle);
    return std::any_of(stages.begin(), stages.end(),
                       [&](const CrushStage& stage) { return worst_section(standing, stage, line).use >= 1; });
  };
  double holds = 0, fails = std::numbers::pi / 4;
  if (collapses(holds))
    return 0;
  if (!collapses(fails))
    return std::numbers::pi / 2;
  constexpr double close_enough = 1e-5; // [rad]
  while (fails - holds > close_enough) {
    const double middle = 0.5 * (holds + fails);
    (collapses(middle) ? fails : holds) = middle;
  }
  return holds;
}

} // namespace crushwright
