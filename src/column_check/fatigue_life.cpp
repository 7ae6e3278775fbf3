#include "column_check/fatigue_life.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace crushwright {

StressCycle cycle_of(double greatest, bool alternating) {
  return alternating ? StressCycle{greatest, 0} : StressCycle{0.5 * greatest, 0.5 * greatest};
}

double reversed_amplitude(const StressCycle& cycle, double mean_limit) {
  if (!(cycle.mean > 0))
    return cycle.amplitude;
  return cycle.mean < mean_limit ? cycle.amplitude / (1 - cycle.mean / mean_limit)
                                 : std::numeric_limits<double>::infinity();
}

double cycles_to_failure(const FatigueStrength& strength, const StressCycle& cycle) {
  const double amplitude = reversed_amplitude(cycle, strength.mean_stress_limit.value);
  const double cycles = strength.cycles.value * std::pow(strength.amplitude.value / amplitude, strength.slope.value);
  return std::max(cycles, 1.0);
}

} // namespace crushwright
