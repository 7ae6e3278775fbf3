#include "crushwright/impact.hpp"

#include <algorithm>

namespace crushwright {
namespace {

void add_column_events(const ImpactMotion& motion, const ColumnMotion& column, const CrushCurve& curve,
                       std::vector<ImpactEvent>& found) {
  if (!(column.peak_crush > 0)) // never touched
    return;
  found.push_back({column.touch_time, "contact", column.structure});
  // The weakest layer begins to collapse at the first point after the origin, or at once without a rise.
  const double collapse_crush = curve.force.front() > 0 ? 0 : curve.crush[1];
  if (column.peak_crush > collapse_crush)
    found.push_back({time_at_crush(motion, column, collapse_crush), "first collapse", column.structure});
  if (column.bottomed)
    found.push_back({time_at_crush(motion, column, curve.bottoming_crush), "bottoming", column.structure});
  found.push_back({column.stop_time, "greatest crush", column.structure});
  found.push_back({column.separation_time, "separation", column.structure});
}

} // namespace

std::vector<ImpactEvent> events(const ImpactMotion& motion, const std::vector<Group>& groups) {
  std::vector<ImpactEvent> found;
  std::size_t column = 0;
  for (const Group& group : groups)
    for (const Line& line : group.lines)
      add_column_events(motion, motion.columns[column++], *line.curve, found);
  for (const ElementMotion& element : motion.elements)
    if (element.first_crush_time >= 0)
      found.push_back({element.first_crush_time, "first crush", element.id});
  std::stable_sort(found.begin(), found.end(),
                   [](const ImpactEvent& a, const ImpactEvent& b) { return a.time < b.time; });
  return found;
}

} // namespace crushwright
