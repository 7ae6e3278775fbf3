#pragma once
#include "crushwright/envelope.hpp"
#include "crushwright/impact.hpp"
#include "crushwright/packaging.hpp"
#include "crushwright/printability.hpp"
#include "crushwright/verdict.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// One structure as a run sees it; nothing is owned.
struct StructureView {
  const std::string* id = nullptr;
  const std::vector<Layer>* layers = nullptr;
  const Envelope* envelope = nullptr;
  const CrushCurve* curve = nullptr; ///< of this side
  double force_factor = 1;           ///< of this side, on the layers
  double crush_factor = 1;
  double mass = 0;                        ///< [kg]
  double smallest_wall = 0;               ///< [m]
  double cells_across = 0;                ///< [-]
  const Packaging* packaging = nullptr;   ///< null without one
  const PrintFigures* printing = nullptr; ///< null without a block `printing`
};

/// One run: structures with their curves, and the motion when there is an impact.
struct RunView {
  const std::string* impact = nullptr; ///< id; null outside of impacts
  const ImpactMotion* motion = nullptr;
  const std::vector<StructureView>* structures = nullptr;
  const std::vector<Limit>* limits = nullptr;        ///< of the case, for the lowest force limit
  std::optional<Signal>* kept_total_force = nullptr; ///< place for the sampled total force; null: sampled each time
};

/// Lowest force that a structure may carry in an impact by the limits on peak force and peak acceleration, and the
/// limit that sets it; infinity and null when none does.
struct LowestForceLimit {
  double force;
  const Limit* limit;
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

const StructureView& structure_of(const RunView& run, const std::string& id);

/// What the filter of a class can make of a signal from 0 to 1, whatever its shape, at the sampling of `measure`: a
/// little above the sum of the positive parts of the filter's answer to a single sample. 1 without a filter.
double greatest_overshoot(int channel_class);

/// A value that the limit's quantity cannot exceed in this run, had without sampling a signal; infinity when there is
/// none so cheap. Lets a search for the worst run pass over runs that cannot be it.
double greatest_possible(const Limit& limit, const RunView& run);

/// The value of a limit's quantity in a run [SI]; absent when the run cannot give it.
std::optional<double> measure(const Limit& limit, const RunView& run);

} // namespace crushwright
