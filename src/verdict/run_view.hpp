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

const StructureView& structure_of(const RunView& run, const std::string& id);

/// Whether the limit is for all structures together.
bool is_all(const Limit& limit);

/// The structures that a limit looks at.
std::vector<const StructureView*> structures_of(const Limit& limit, const RunView& run);

/// Their motions; those of all structures for the acceleration of a body. A structure that is not struck has none.
std::vector<const ColumnMotion*> columns_of(const Limit& limit, const RunView& run);

/// The body that a limit looks at.
const Body& body_of(const Limit& limit, const ImpactMotion& motion);

} // namespace crushwright
