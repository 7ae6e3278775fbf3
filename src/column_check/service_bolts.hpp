#pragma once
#include "column_check/service_beam.hpp"

namespace crushwright {

/// What the worst bolts of a pattern carry.
struct BoltService {
  double tension = 0; ///< greatest pull [N]; 0 when all are pressed
  double use = 0;     ///< of the most loaded bolt [-]
};

/// Elastic share of a load on bolts that keep a joint closed; docs/method/service_loads.md.
/// @param root         what the structure puts on its attachment, about the root section's centroid.
/// @param alternating  the opposite load comes too.
/// @throws OutOfDomain without bolts, or when a moment acts that the pattern cannot carry.
BoltService bolt_service(const BoltPattern& bolts, const CutLoad& root, bool alternating);

} // namespace crushwright
