#include "coupon/quasi_elastic.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

constexpr double line_span = 0.3; ///< of the level
constexpr double first_begin = 0.1;
constexpr double last_begin = 0.4;
constexpr int begins = 7;
constexpr std::size_t fewest_fitted = 4;

struct Line {
  double slope = 0;
  double mean_strain = 0, mean_stress = 0;
  double from_strain = 0;
};

double crossing(const TestPoint& a, const TestPoint& b, double stress) {
  return a.stress == b.stress ? b.strain
                              : a.strain + (b.strain - a.strain) * (stress - a.stress) / (b.stress - a.stress);
}

/// Least squares of stress on strain over samples [from, to).
Line fitted(const std::vector<TestPoint>& samples, std::size_t from, std::size_t to) {
  Line line;
  const auto count = static_cast<double>(to - from);
  for (std::size_t i = from; i < to; ++i) {
    line.mean_strain += samples[i].strain / count;
    line.mean_stress += samples[i].stress / count;
  }
  double cross = 0;
  double squares = 0;
  for (std::size_t i = from; i < to; ++i) {
    const double off = samples[i].strain - line.mean_strain;
    cross += off * (samples[i].stress - line.mean_stress);
    squares += off * off;
  }
  line.slope = cross / squares;
  return line;
}

/// The line between two stresses of the rise; absent when the samples start above the lower one.
std::optional<Line> line_between(const std::vector<TestPoint>& samples, double low, double high) {
  std::size_t top = 0;
  while (top < samples.size() && samples[top].stress < high) {
    ++top;
  }
  if (top == 0 || top == samples.size()) {
    return std::nullopt;
  }
  std::size_t bottom = top;
  while (bottom > 0 && samples[bottom - 1].stress > low) {
    --bottom;
  }
  if (bottom == 0) {
    return std::nullopt;
  }
  const double low_strain = crossing(samples[bottom - 1], samples[bottom], low);
  const double high_strain = crossing(samples[top - 1], samples[top], high);
  if (!(high_strain > low_strain)) {
    return std::nullopt;
  }
  Line line = top - bottom >= fewest_fitted
                  ? fitted(samples, bottom, top)
                  : Line{(high - low) / (high_strain - low_strain), low_strain, low, low_strain};
  line.from_strain = low_strain;
  return line;
}

std::optional<Line> steepest(const std::vector<TestPoint>& samples, double level) {
  std::optional<Line> best;
  for (int i = 0; i < begins; ++i) {
    const double begin = first_begin + (last_begin - first_begin) * i / (begins - 1);
    const std::optional<Line> line = line_between(samples, begin * level, (begin + line_span) * level);
    if (line && line->slope > 0 && (!best || line->slope > best->slope)) {
      best = line;
    }
  }
  const double start = samples.front().stress;
  if (!best && start < (last_begin + line_span) * level) {
    best = line_between(samples, start, (last_begin + line_span) * level); // a record that starts under load
  }
  return best;
}

} // namespace

std::optional<QuasiElasticLine> quasi_elastic_line(const std::vector<TestPoint>& samples, double level) {
  const std::optional<Line> line = steepest(samples, level);
  if (!line) {
    return std::nullopt;
  }
  QuasiElasticLine found;
  found.slope = line->slope;
  const double earliest = samples.front().strain - samples.front().stress / line->slope;
  found.foot = std::max(line->mean_strain - line->mean_stress / line->slope, earliest);
  found.from_strain = line->from_strain;
  const auto first = std::lower_bound(samples.begin(), samples.end(), line->from_strain,
                                      [](const TestPoint& sample, double strain) { return sample.strain < strain; });
  found.first = static_cast<std::size_t>(first - samples.begin());
  return found;
}

} // namespace crushwright
