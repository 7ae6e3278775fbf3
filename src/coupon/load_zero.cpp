#include "coupon/load_zero.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr std::size_t fewest_quiet = 8;
constexpr double quiet_band = 0.03;    ///< of the level
constexpr double noise_band = 5;       ///< times the noise of the first points, where that is more
constexpr double quiet_below = 0.5;    ///< of the level
constexpr double quiet_advance = 5e-4; ///< strain by which its first half goes on: a held preload stands still
constexpr double preload_told = 0.01;  ///< of the level
constexpr double quiet_trend = 0.005;  ///< of the level
constexpr double trend_errors = 4;     ///< standard errors, where they are more

struct Trend {
  double mean = 0, deviation = 0;
  double change = 0;       ///< of a straight line from the first to the last point
  double change_error = 0; ///< its standard error, from the scatter about that line
};

/// Over the points' order: strain may stand still before contact.
Trend trend_of(const std::vector<TestPoint>& samples, std::size_t count) {
  const auto n = static_cast<double>(count);
  Trend trend;
  for (std::size_t i = 0; i < count; ++i) {
    trend.mean += samples[i].stress / n;
  }
  double cross = 0;
  double squares = 0;
  double order_squares = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double order = static_cast<double>(i) - (n - 1) / 2;
    const double off = samples[i].stress - trend.mean;
    cross += order * off;
    order_squares += order * order;
    squares += off * off;
  }
  trend.deviation = std::sqrt(squares / (n - 1));
  const double slope = cross / order_squares;
  trend.change = slope * (n - 1);
  trend.change_error = std::sqrt(std::max(0.0, squares - slope * cross) / (n - 2) / order_squares) * (n - 1);
  return trend;
}

/// Points from the start that stay within a band about the first ones; a single one outside does not end it.
std::size_t steady_points(const std::vector<TestPoint>& samples, double level) {
  const Trend start = trend_of(samples, fewest_quiet);
  const double band = std::max(quiet_band * level, noise_band * start.deviation);
  const auto outside = [&](std::size_t i) {
    return i >= samples.size() || std::fabs(samples[i].stress - start.mean) > band;
  };
  std::size_t count = 0;
  while (count < samples.size() && !(outside(count) && outside(count + 1))) {
    ++count;
  }
  return count;
}

} // namespace

QuietStretch quiet_stretch(const std::vector<TestPoint>& samples, double level) {
  if (samples.size() <= fewest_quiet) {
    return {};
  }
  const std::size_t count = steady_points(samples, level);
  if (count < fewest_quiet || count == samples.size()) {
    return {};
  }
  const std::size_t half = std::max(count / 2, fewest_quiet / 2);
  const Trend trend = trend_of(samples, half);
  if (std::fabs(trend.mean) > quiet_below * level ||
      std::fabs(trend.change) > std::max(quiet_trend * level, trend_errors * trend.change_error)) {
    return {};
  }
  const bool moving = samples[half - 1].strain - samples.front().strain >= quiet_advance;
  return {count, trend.mean, trend.deviation, moving};
}

QuietStretch take_zero_off(TestCurve& curve) {
  const double level = stress_level(curve.samples);
  const QuietStretch quiet = quiet_stretch(curve.samples, level);
  if (quiet.count > 0 && !quiet.moving) {
    if (std::fabs(quiet.zero) > preload_told * level) {
      curve.remarks.push_back(
          fmt::format("{}: load and displacement both stand still, at {:.3g} MPa; a held preload and "
                      "a zero that is off look alike, so nothing is taken off",
                      lines_text(curve.samples.front().line, curve.samples[quiet.count - 1].line), quiet.zero / 1e6));
    }
    return quiet;
  }
  const double error = quiet.noise / std::sqrt(std::max(1.0, static_cast<double>(quiet.count) / 2));
  if (quiet.count == 0 || std::fabs(quiet.zero) <= std::max(2 * error, 1e-6 * level)) {
    return quiet;
  }
  for (TestPoint& sample : curve.samples) {
    sample.stress -= quiet.zero;
  }
  curve.remarks.push_back(fmt::format("{}: the load before contact is {:.3g} MPa, {:.2g} % of the plateau; taken off "
                                      "as the load's zero",
                                      lines_text(curve.samples.front().line, curve.samples[quiet.count - 1].line),
                                      quiet.zero / 1e6, 100 * quiet.zero / level));
  return quiet;
}

} // namespace crushwright
