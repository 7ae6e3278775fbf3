#include "crushwright/pulse_metric.hpp"

#include "crushwright/errors.hpp"
#include "pulse_metric/require_samples.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fmt/format.h>
#include <functional>
#include <limits>

namespace crushwright {

namespace {

/// The signal between two samples: from low to high within one step, whichever comes first.
struct Segment {
  double low = 0;
  double high = 0;
};

// A duration is met when it is met to this part of itself: thirty steps of 0.1 ms are 3 ms, whatever their last
// digit.
constexpr double rounding = 1e-12;

/// @return true when the duration takes the whole signal.
bool checked_to_fill(const Signal& signal, double duration) {
  require_samples(signal);
  if (!(duration > 0) || !std::isfinite(duration))
    throw OutOfDomain(fmt::format("the duration of a held level must be positive, but is {} s", duration));
  const double time = whole_time(signal);
  if (duration * (1 - rounding) > time)
    throw OutOfDomain(
        fmt::format("a level held for {:g} ms was asked of a signal that lasts {:g} ms", 1e3 * duration, 1e3 * time));
  return duration >= time * (1 - rounding);
}

/// Part of a segment's time that it is at or above the level.
double part_above(const Segment& segment, double level) {
  if (segment.low >= level)
    return 1;
  if (segment.high < level)
    return 0;
  return (segment.high - level) / (segment.high - segment.low);
}

double steps_above(const std::vector<Segment>& segments, double level) {
  double steps = 0;
  for (const Segment& segment : segments)
    steps += part_above(segment, level);
  return steps;
}

/// Segments that reach a level which is surely held for `steps` steps: as many lie wholly at or above it.
std::vector<Segment> segments_that_matter(const Signal& signal, double steps) {
  const std::size_t count = signal.values.size() - 1;
  std::vector<Segment> segments(count);
  std::vector<double> lows(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double here = signal.values[i];
    const double next = signal.values[i + 1];
    segments[i] = {std::min(here, next), std::max(here, next)};
    lows[i] = segments[i].low;
  }
  const auto needed = std::min(count, static_cast<std::size_t>(std::ceil(steps)));
  const auto place = lows.begin() + static_cast<std::ptrdiff_t>(needed - 1);
  std::nth_element(lows.begin(), place, lows.end(), std::greater<>());
  const double held = *place;
  std::erase_if(segments, [held](const Segment& segment) { return segment.high < held; });
  return segments;
}

/// Sample values of the segments, falling, each once.
std::vector<double> falling_levels(const std::vector<Segment>& segments) {
  std::vector<double> levels;
  levels.reserve(2 * segments.size());
  for (const Segment& segment : segments) {
    levels.push_back(segment.low);
    levels.push_back(segment.high);
  }
  std::sort(levels.begin(), levels.end(), std::greater<>());
  levels.erase(std::unique(levels.begin(), levels.end()), levels.end());
  return levels;
}

/// Level between two neighbouring sample values at which the time above, linear there, reaches `steps` steps.
double level_between(const std::vector<Segment>& segments, double upper, double lower, double steps) {
  double steps_per_level = 0;
  for (const Segment& segment : segments)
    if (segment.low <= lower && segment.high >= upper)
      steps_per_level += 1 / (segment.high - segment.low);
  const double missing = steps - steps_above(segments, upper);
  // Time that a flat stretch at the lower value brings at once shows as a level below it.
  return std::max(lower, upper - missing / steps_per_level);
}

/// Lowest sample of every run of `width` neighbours; run i starts at sample i. Width 0 holds nothing back.
std::vector<double> lowest_of_runs(const std::vector<double>& values, std::size_t width) {
  std::vector<double> lowest(values.size(), std::numeric_limits<double>::infinity());
  if (width == 0)
    return lowest;
  // Candidates, rising in place and in value: a sample behind a lower or equal one is never a later run's lowest.
  std::vector<std::size_t> candidates(values.size());
  std::size_t begin = 0;
  std::size_t end = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    while (end > begin && values[candidates[end - 1]] >= values[i])
      --end;
    candidates[end++] = i;
    if (i + 1 < width)
      continue;
    const std::size_t start = i + 1 - width;
    while (candidates[begin] < start)
      ++begin;
    lowest[start] = values[candidates[begin]];
  }
  return lowest;
}

/// Greatest value of the lesser of two straight lines over the same stretch, given at its ends.
double greatest_lesser(double p0, double p1, double q0, double q1) {
  double best = std::max(std::min(p0, q0), std::min(p1, q1));
  const double gap0 = p0 - q0;
  const double gap1 = p1 - q1;
  if ((gap0 < 0 && gap1 > 0) || (gap0 > 0 && gap1 < 0))
    best = std::max(best, p0 + (p1 - p0) * gap0 / (gap0 - gap1));
  return best;
}

} // namespace

void require_samples(const Signal& signal) {
  if (signal.values.empty())
    throw OutOfDomain("a pulse value was asked of a signal without samples");
  if (!(signal.step > 0) || !std::isfinite(signal.step))
    throw OutOfDomain(fmt::format("the sampling step of a signal must be positive, but is {} s", signal.step));
}

double whole_time(const Signal& signal) {
  return static_cast<double>(signal.values.size() - 1) * signal.step;
}

double peak(const Signal& signal) {
  require_samples(signal);
  return *std::max_element(signal.values.begin(), signal.values.end());
}

double mean_over_time(const Signal& signal) {
  require_samples(signal);
  const std::size_t count = signal.values.size();
  if (count == 1)
    return signal.values.front();
  double sum = (signal.values.front() + signal.values.back()) / 2;
  for (std::size_t i = 1; i + 1 < count; ++i)
    sum += signal.values[i];
  return sum / static_cast<double>(count - 1);
}

double level_exceeded_for(const Signal& signal, double duration) {
  if (checked_to_fill(signal, duration))
    return *std::min_element(signal.values.begin(), signal.values.end());
  const double steps = duration / signal.step * (1 - rounding);
  const std::vector<Segment> segments = segments_that_matter(signal, steps);
  const std::vector<double> levels = falling_levels(segments);
  const auto held = std::partition_point(levels.begin(), levels.end(),
                                         [&](double level) { return steps_above(segments, level) < steps; });
  if (held == levels.begin())
    return levels.front();
  // Rounding in the sums can leave the lowest level a digit short of the time that is known to be there.
  if (held == levels.end())
    return levels.back();
  return level_between(segments, *(held - 1), *held, steps);
}

double level_exceeded_without_break_for(const Signal& signal, double duration) {
  if (checked_to_fill(signal, duration))
    return *std::min_element(signal.values.begin(), signal.values.end());
  const std::vector<double>& x = signal.values;
  const double steps = duration / signal.step;
  // The tolerance makes thirty steps thirty, whichever side of it the quotient falls.
  const double whole_steps = std::floor(steps * (1 + rounding));
  const double rest = std::max(0.0, steps - whole_steps);
  const auto width = static_cast<std::size_t>(whole_steps);
  const std::vector<double> lowest = lowest_of_runs(x, width);
  const auto at = [&x](std::size_t sample, double part) { return x[sample] + part * (x[sample + 1] - x[sample]); };

  double best = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i + width + 1 < x.size(); ++i) {
    const std::size_t j = i + width;
    // Window from between samples i and i + 1 to between j and j + 1: samples i + 1 to j lie inside.
    const double start_at_turn = at(i, 1 - rest);
    best = std::max(best, std::min(lowest[i + 1], greatest_lesser(x[i], start_at_turn, at(j, rest), x[j + 1])));
    // Once its end has passed sample j + 1, that sample lies inside too.
    if (rest > 0 && j + 2 < x.size()) {
      const double inside = std::min(lowest[i + 1], x[j + 1]);
      best = std::max(best, std::min(inside, greatest_lesser(start_at_turn, x[i + 1], x[j + 1], at(j + 1, rest))));
    }
  }
  return best;
}

double time_above(const Signal& signal, double level) {
  require_samples(signal);
  double steps = 0;
  for (std::size_t i = 0; i + 1 < signal.values.size(); ++i) {
    const double here = signal.values[i];
    const double next = signal.values[i + 1];
    steps += part_above({std::min(here, next), std::max(here, next)}, level);
  }
  return steps * signal.step;
}

} // namespace crushwright
