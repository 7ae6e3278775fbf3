#pragma once
#include "crushwright/pulse_metric.hpp"

namespace crushwright {

/// @throws OutOfDomain for a signal without samples, or with a step that is not a positive number.
void require_samples(const Signal& signal);

/// From the first sample to the last [s].
double whole_time(const Signal& signal);

} // namespace crushwright
