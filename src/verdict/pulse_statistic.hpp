#pragma once
#include "crushwright/pulse_metric.hpp"
#include "crushwright/verdict.hpp"

namespace crushwright {

/// Whether the statistic needs a time: how long a level is held, or the width of a window.
bool needs_time(Statistic statistic);

/// Whether the statistic is the response of an occupant, and so of a body's acceleration over the whole impact.
bool is_of_occupant(Statistic statistic);

/// cumulative_time, continuous_time or moving_average of a signal that is zero outside of its samples: a level is not
/// held for longer than the signal lasts, and a longer window averages over what is there [unit of the signal].
/// @param time  [s], > 0.
double over_time(Statistic statistic, const Signal& signal, double time);

/// occupant_load or pulse_index [m/s^2].
/// @param acceleration   magnitude of a body's, from contact to separation [m/s^2]; it rests before and after.
/// @param channel_class  0 raw, else filtered with this class, together with the rest around it: what the filter
/// spreads past contact and separation belongs to the body's change of speed.
double of_occupant(Statistic statistic, const Signal& acceleration, int channel_class);

} // namespace crushwright
