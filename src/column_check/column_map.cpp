#include "column_check/crush_stage.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crushwright {

ColumnMap column_map(const BeamColumn& column, const std::vector<Layer>& layers, const ColumnLoading& loading,
                     const BoltPattern* bolts) {
  ForceLine line = force_line(loading);
  const StandingColumn standing = standing_column(column, layers);
  ColumnMap map;
  std::vector<CrushStage> stages;
  const double peak = greatest_layer_force(layers, loading);
  for (int eighths = 2; eighths <= 10; ++eighths) {
    map.shares.push_back(eighths / 8.0);
    stages.push_back(crush_stage(standing, layers, peak * map.shares.back(), loading.force_factor));
  }
  constexpr int widest = 30, step = 5; // [deg]
  for (int degrees = 0; degrees <= widest; degrees += step) {
    map.angles.push_back(degrees * std::numbers::pi / 180);
    line.slope = std::tan(map.angles.back());
    std::vector<double>& row = map.use.emplace_back();
    for (const CrushStage& stage : stages) {
      double use = worst_section(standing, stage, line).use;
      if (bolts != nullptr)
        use = std::max(use, bolt_use(standing, stage, line, *bolts));
      row.push_back(use);
    }
  }
  return map;
}

} // namespace crushwright
