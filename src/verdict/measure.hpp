#pragma once
#include "crushwright/column_check.hpp"
#include "crushwright/envelope.hpp"
#include "crushwright/impact.hpp"
#include "crushwright/load_path.hpp"
#include "crushwright/packaging.hpp"
#include "crushwright/printability.hpp"
#include "crushwright/verdict.hpp"

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// What the column checks of one structure look at; nothing is owned.
struct ColumnFigures {
  const BeamColumn* column = nullptr;
  const BoltPattern* bolts = nullptr; ///< null without
  double bending_frequency = 0;       ///< [Hz]
  const std::vector<ServiceOutcome>* service = nullptr;
  const FatigueOutcome* fatigue = nullptr; ///< null without a spectrum
};

/// One structure as a run sees it; nothing is owned.
struct StructureView {
  const std::string* id = nullptr;
  const std::vector<Layer>* layers = nullptr;
  const Envelope* envelope = nullptr;
  const CrushCurve* curve = nullptr; ///< of this side
  double force_factor = 1;           ///< of this side, on the layers
  double crush_factor = 1;
  double mass = 0;                                                      ///< [kg]
  double smallest_wall = 0;                                             ///< [m]
  double cells_across = 0;                                              ///< [-]
  const Packaging* packaging = nullptr;                                 ///< null without one
  const PrintFigures* printing = nullptr;                               ///< null without a block `printing`
  const AttachmentInput* attachment = nullptr;                          ///< null without one
  double attachment_capacity = std::numeric_limits<double>::infinity(); ///< of this side [N]
  const ColumnFigures* column = nullptr; ///< null when nothing of the case asks for column checks
};

/// What a run knows of its impact beside the motion.
struct ImpactView {
  double force_angle = 0;                         ///< of this side [rad]
  const std::vector<Contact>* contacts = nullptr; ///< null without a face
  double striker_centre = 0, struck_centre = 0;   ///< y of the centres of mass [m]
};

/// One run: structures with their curves, and the motion when there is an impact.
struct RunView {
  const std::string* impact = nullptr; ///< id; null outside of impacts
  const ImpactMotion* motion = nullptr;
  const std::vector<StructureView>* structures = nullptr;
  const std::vector<Limit>* limits = nullptr;        ///< of the case, for the lowest force limit
  std::optional<Signal>* kept_total_force = nullptr; ///< place for the sampled total force; null: sampled each time
  ImpactView about = {};
};

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

const StructureView& structure_of(const RunView& run, const std::string& id);

/// How a structure stands under the force of a run, worst over its stroke. @param structure with column figures.
ColumnUnderForce column_state(const RunView& run, const ColumnMotion& column, const StructureView& structure);

/// Loading of a structure's column in a run, for the map and the critical angle.
ColumnLoading column_loading(const RunView& run, const ColumnMotion& column, const StructureView& structure);

/// What the filter of a class can make of a signal from 0 to 1, whatever its shape, at the sampling of `measure`: a
/// little above the sum of the positive parts of the filter's answer to a single sample. 1 without a filter.
double greatest_overshoot(int channel_class);

/// A value that the limit's quantity cannot exceed in this run, had without sampling a signal; infinity when there is
/// none so cheap. Lets a search for the worst run pass over runs that cannot be it.
double greatest_possible(const Limit& limit, const RunView& run);

/// The value of a limit's quantity in a run [SI]; absent when the run cannot give it.
std::optional<double> measure(const Limit& limit, const RunView& run);

} // namespace crushwright
