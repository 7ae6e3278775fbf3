#include "verdict/force_statistic.hpp"

#include "verdict/pulse_statistic.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace crushwright {
namespace {

/// SAE J211-1 asks for at least ten samples per filter class and channel; 10 kHz serves every class up to 1000.
constexpr double sampling_step = 1e-4;

/// Crush up to which a limit's window looks at one column [m].
double window_crush(const Limit& limit, const ColumnMotion& column, const CrushCurve& curve) {
  switch (limit.window.kind) {
  case WindowKind::whole:
    return column.peak_crush;
  case WindowKind::first_crush:
    return std::min(limit.window.extent, column.peak_crush);
  case WindowKind::first_energy:
    return std::min(curve.crush_at_energy(limit.window.extent * column.share), column.peak_crush);
  }
  return column.peak_crush;
}

/// Time at which the first of the columns leaves the window; whole windows end with the last stop.
double window_time(const Limit& limit, const RunView& run, const std::vector<const ColumnMotion*>& columns) {
  double last_stop = 0, first_leave = std::numeric_limits<double>::infinity();
  for (const ColumnMotion* column : columns) {
    last_stop = std::max(last_stop, column->stop_time);
    const CrushCurve& curve = *structure_of(run, column->structure).curve;
    first_leave = std::min(first_leave, time_at_crush(*run.motion, *column, window_crush(limit, *column, curve)));
  }
  return limit.window.kind == WindowKind::whole ? last_stop : first_leave;
}

void cut(Signal& signal, double end) {
  const auto count = static_cast<std::size_t>(std::ceil(end / signal.step)) + 1;
  if (count < signal.values.size())
    signal.values.resize(std::max<std::size_t>(count, 2));
}

/// The total force sampled, once a run where the run can keep it [N].
Signal total_force(const RunView& run) {
  if (run.kept_total_force == nullptr)
    return force_signal(*run.motion, sampling_step);
  if (!*run.kept_total_force)
    *run.kept_total_force = force_signal(*run.motion, sampling_step);
  return **run.kept_total_force;
}

/// Total force over the columns as a signal, filtered and cut to the window [N].
Signal windowed_signal(const Limit& limit, const RunView& run, const std::vector<const ColumnMotion*>& columns) {
  const bool all = columns.size() == run.motion->columns.size();
  Signal signal = all ? total_force(run) : force_signal(*run.motion, sampling_step, columns.front());
  if (limit.channel_class > 0)
    signal = filtered(signal, static_cast<ChannelClass>(limit.channel_class));
  // A mean ends at the last standstill, filtered or not; a peak or a held level may come while the bodies part.
  if (limit.window.kind != WindowKind::whole || limit.statistic == Statistic::mean_over_time)
    cut(signal, window_time(limit, run, columns));
  return signal;
}

/// Largest raw total force over the columns in the window [N].
double raw_peak(const Limit& limit, const RunView& run, const std::vector<const ColumnMotion*>& columns) {
  if (columns.size() == 1) {
    const ColumnMotion& column = *columns.front();
    if (limit.window.kind == WindowKind::whole)
      return column.peak_force;
    const CrushCurve& curve = *structure_of(run, column.structure).curve;
    return curve.peak_force_up_to(window_crush(limit, column, curve));
  }
  if (limit.window.kind == WindowKind::whole)
    return run.motion->peak_total_force;
  return peak(windowed_signal(limit, run, columns));
}

double mean_over_distance(const Limit& limit, const RunView& run, const std::vector<const ColumnMotion*>& columns) {
  double energy = 0, distance = 0;
  for (const ColumnMotion* column : columns) {
    const CrushCurve& curve = *structure_of(run, column->structure).curve;
    const double crush = window_crush(limit, *column, curve);
    energy += curve.energy_at(crush);
    distance = std::max(distance, crush);
  }
  return energy / distance;
}

double raw_mean_over_time(const Limit& limit, const RunView& run, const std::vector<const ColumnMotion*>& columns) {
  const double end = window_time(limit, run, columns);
  if (columns.size() == run.motion->columns.size())
    return impulse_until(*run.motion, end) / end;
  const ColumnMotion& column = *columns.front();
  const auto in_group = [&](const ColumnMotion& each) { return each.group == column.group; };
  if (std::count_if(run.motion->columns.begin(), run.motion->columns.end(), in_group) > 1)
    return mean_over_time(windowed_signal(limit, run, columns));
  ImpactMotion alone = *run.motion;
  alone.groups = {run.motion->groups[column.group]};
  alone.columns = {column};
  alone.columns.front().group = 0;
  return impulse_until(alone, end) / end;
}

} // namespace

double force_statistic(const Limit& limit, const RunView& run) {
  const std::vector<const ColumnMotion*> columns = columns_of(limit, run);
  const bool raw = limit.channel_class == 0;
  switch (limit.statistic) {
  case Statistic::peak:
    return raw ? raw_peak(limit, run, columns) : peak(windowed_signal(limit, run, columns));
  case Statistic::mean_over_time:
    return raw ? raw_mean_over_time(limit, run, columns) : mean_over_time(windowed_signal(limit, run, columns));
  case Statistic::mean_over_distance:
    return mean_over_distance(limit, run, columns);
  case Statistic::cumulative_time:
  case Statistic::continuous_time:
  case Statistic::moving_average:
    return over_time(limit.statistic, windowed_signal(limit, run, columns), limit.statistic_time);
  case Statistic::occupant_load: // of an acceleration alone
  case Statistic::pulse_index:
    return std::numeric_limits<double>::quiet_NaN();
  }
  return 0;
}

double acceleration_statistic(const Limit& limit, const RunView& run) {
  const double mass = body_of(limit, *run.motion).mass;
  if (!is_of_occupant(limit.statistic))
    return force_statistic(limit, run) / mass;
  // The ways of an occupant are lengths, so the value does not grow evenly with the signal.
  Signal signal = total_force(run);
  for (double& value : signal.values)
    value /= mass;
  return of_occupant(limit.statistic, signal, limit.channel_class);
}

double greatest_overshoot(int channel_class) {
  return channel_class == 0 ? 1 : channel_class <= 180 ? 1.075 : channel_class <= 600 ? 1.085 : 1.12;
}

double greatest_possible(const Limit& limit, const RunView& run) {
  if (is_of_occupant(limit.statistic)) // an occupant may see more than the body's peak
    return std::numeric_limits<double>::infinity();
  const bool sampled = needs_time(limit.statistic) || limit.channel_class > 0;
  const bool of_signal = limit.quantity == LimitedQuantity::acceleration || limit.quantity == LimitedQuantity::force;
  if (!of_signal || !sampled || limit.window.kind != WindowKind::whole)
    return std::numeric_limits<double>::infinity();
  const double overshoot = greatest_overshoot(limit.channel_class);
  const double force = overshoot * raw_peak(limit, run, columns_of(limit, run));
  return limit.quantity == LimitedQuantity::force ? force : force / body_of(limit, *run.motion).mass;
}

} // namespace crushwright
