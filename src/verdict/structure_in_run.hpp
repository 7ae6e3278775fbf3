#pragma once
#include "verdict/run_view.hpp"

namespace crushwright {

/// Lowest force that a structure may carry in an impact by the limits on peak force and peak acceleration and by what
/// carries it, and the limit that sets it; infinity when none does. The limit is null where the attachment sets it.
struct LowestForceLimit {
  double force;
  const Limit* limit;
  bool of_attachment = false;
};
LowestForceLimit lowest_force_limit(const RunView& run, const ColumnMotion& column);

/// Crush that may be used: to the lowest force limit, or to bottoming [m].
double usable_stroke(const RunView& run, const ColumnMotion& column, const StructureView& structure);

/// The layers at the greatest crush: the force they carried, side factor taken out [N], and their shortenings [m],
/// crush factor taken out. The force is that of the stop, or less where that lies on a first peak, which belongs to
/// the start of the first layer and loads no other to its own collapse.
struct LayersAtStop {
  double force;
  std::vector<double> shortenings;
};
LayersAtStop layers_at_stop(const StructureView& structure, const ColumnMotion& column);

/// Where the stations of a structure stand at the greatest crush of a run.
CrushedStations stations_at_stop(const StructureView& structure, const ColumnMotion& column);

/// How a structure stands under the force of a run, worst over its stroke. @param structure with column figures.
ColumnUnderForce column_state(const RunView& run, const ColumnMotion& column, const StructureView& structure);

/// Loading of a structure's column in a run, for the map and the critical angle.
ColumnLoading column_loading(const RunView& run, const ColumnMotion& column, const StructureView& structure);

} // namespace crushwright
