#include "verdict/pulse_statistic.hpp"

#include <cmath>

namespace crushwright {
namespace {

/// Class 60, the slowest, has forgotten an edge to 1e-7 of it after this time [s].
constexpr double rest_time = 0.03;

Signal with_rest_around(const Signal& signal) {
  const auto steps = static_cast<std::size_t>(std::ceil(rest_time / signal.step));
  Signal longer{signal.step, std::vector<double>(steps, 0.0)};
  longer.values.insert(longer.values.end(), signal.values.begin(), signal.values.end());
  longer.values.resize(longer.values.size() + steps, 0.0);
  return longer;
}

} // namespace

bool needs_time(Statistic statistic) {
  return statistic == Statistic::cumulative_time || statistic == Statistic::continuous_time ||
         statistic == Statistic::moving_average;
}

bool is_of_occupant(Statistic statistic) {
  return statistic == Statistic::occupant_load || statistic == Statistic::pulse_index;
}

double over_time(Statistic statistic, const Signal& signal, double time) {
  const double length = signal.step * static_cast<double>(signal.values.size() - 1);
  const bool too_short = length < time;
  if (statistic == Statistic::moving_average)
    return too_short ? mean_over_time(signal) * length / time : greatest_moving_average(signal, time);
  if (too_short)
    return 0;
  return statistic == Statistic::cumulative_time ? level_exceeded_for(signal, time)
                                                 : level_exceeded_without_break_for(signal, time);
}

double of_occupant(Statistic statistic, const Signal& acceleration, int channel_class) {
  const Signal signal = channel_class == 0
                            ? acceleration
                            : filtered(with_rest_around(acceleration), static_cast<ChannelClass>(channel_class));
  return statistic == Statistic::occupant_load ? occupant_load(signal) : pulse_index(signal);
}

} // namespace crushwright
