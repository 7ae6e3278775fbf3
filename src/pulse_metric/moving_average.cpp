#include "crushwright/errors.hpp"
#include "crushwright/pulse_metric.hpp"
#include "pulse_metric/require_samples.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fmt/format.h>

namespace crushwright {
namespace {

/// As for held levels: thirty steps of 0.1 ms are 3 ms, whatever their last digit.
constexpr double rounding = 1e-12;

/// A signal with the area under it; places and areas count in steps.
class Area {
public:
  explicit Area(const std::vector<double>& values) : values_(values), before_(values.size(), 0.0) {
    for (std::size_t i = 1; i < values.size(); ++i)
      before_[i] = before_[i - 1] + (values[i - 1] + values[i]) / 2;
  }
  double value(double place) const {
    const auto [i, part] = split(place);
    return values_[i] + part * (values_[i + 1] - values_[i]);
  }
  double until(double place) const {
    const auto [i, part] = split(place);
    return before_[i] + part * (values_[i] + part * (values_[i + 1] - values_[i]) / 2);
  }

private:
  struct Place {
    std::size_t sample;
    double part;
  };
  Place split(double place) const {
    const auto sample = std::min(static_cast<std::size_t>(std::max(0.0, place)), values_.size() - 2);
    return {sample, std::clamp(place - static_cast<double>(sample), 0.0, 1.0)};
  }
  const std::vector<double>& values_;
  std::vector<double> before_;
};

/// Greatest area under a window of this width that starts in [first, last], where neither end passes a sample.
double greatest_between(const Area& area, double width, double first, double last) {
  const auto under = [&](double start) { return area.until(start + width) - area.until(start); };
  const double gain_first = area.value(first + width) - area.value(first);
  const double gain_last = area.value(last + width) - area.value(last);
  double best = std::max(under(first), under(last));
  // What the window gains in front less what it loses behind moves on a straight line.
  if (gain_first > 0 && gain_last < 0)
    best = std::max(best, under(first + (last - first) * gain_first / (gain_first - gain_last)));
  return best;
}

} // namespace

double greatest_moving_average(const Signal& signal, double duration) {
  require_samples(signal);
  if (!(duration > 0) || !std::isfinite(duration))
    throw OutOfDomain(fmt::format("the window of a moving average must be positive, but is {} s", duration));
  const double time = whole_time(signal);
  if (duration * (1 - rounding) > time)
    throw OutOfDomain(fmt::format("a moving average over {:g} ms was asked of a signal that lasts {:g} ms",
                                  1e3 * duration, 1e3 * time));
  if (duration >= time * (1 - rounding))
    return mean_over_time(signal);
  const Area area(signal.values);
  const double width = duration / signal.step;
  const double last_start = static_cast<double>(signal.values.size() - 1) - width;
  const double rest = width - std::floor(width);
  double best = std::max(area.until(width), area.until(last_start + width) - area.until(last_start));
  for (double start = 0; start < last_start; start += 1) {
    const double turn = std::min(start + 1 - rest, last_start);
    best = std::max(best, greatest_between(area, width, start, turn));
    best = std::max(best, greatest_between(area, width, turn, std::min(start + 1, last_start)));
  }
  return best / width;
}

} // namespace crushwright
