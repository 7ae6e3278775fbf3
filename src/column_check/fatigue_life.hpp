#pragma once
#include "crushwright/column_check.hpp"

namespace crushwright {

/// What a place feels of one cycle of a load: stress [Pa], or force of a bolt [N].
struct StressCycle {
  double amplitude = 0; ///< half the range
  double mean = 0;      ///< taken as tension
};

/// @param greatest     at the load's full size.
/// @param alternating  to both sides alike; else from nothing to full and back.
StressCycle cycle_of(double greatest, bool alternating);

/// Amplitude with no mean that hurts as much, Goodman's line amplitude / (1 - mean / limit); infinite from the limit
/// on.
/// @param mean_limit  > 0, or 0 when the mean is 0 too.
double reversed_amplitude(const StressCycle& cycle, double mean_limit);

/// Basquin's line, N_e (S_e / S)^k, at least one cycle; infinite without amplitude [-].
double cycles_to_failure(const FatigueStrength& strength, const StressCycle& cycle);

} // namespace crushwright
