#pragma once
#include "verdict/run_view.hpp"

namespace crushwright {

/// The limit's statistic of the total force over the columns that it looks at [N]; not finite when it has none.
double force_statistic(const Limit& limit, const RunView& run);

/// The limit's statistic of the acceleration of its body [m/s^2]; not finite when it has none.
double acceleration_statistic(const Limit& limit, const RunView& run);

/// What the filter of a class can make of a signal from 0 to 1, whatever its shape, at the sampling of `measure`: a
/// little above the sum of the positive parts of the filter's answer to a single sample. 1 without a filter.
double greatest_overshoot(int channel_class);

/// A value that the limit's quantity cannot exceed in this run, had without sampling a signal; infinity when there is
/// none so cheap. Lets a search for the worst run pass over runs that cannot be it.
double greatest_possible(const Limit& limit, const RunView& run);

} // namespace crushwright
