#include "correlation/common_grid.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {

namespace {

/// Index of the segment that holds x; the last one for the end.
std::size_t segment_of(const SampledCurve& curve, double x) {
  const auto above = std::upper_bound(curve.x.begin(), curve.x.end(), x);
  const auto index = static_cast<std::size_t>(above - curve.x.begin());
  return std::clamp<std::size_t>(index, 1, curve.x.size() - 1) - 1;
}

/// Area from the first point to x.
double area_to(const SampledCurve& curve, const std::vector<double>& sums, double x) {
  const std::size_t i = segment_of(curve, x);
  return sums[i] + 0.5 * (curve.y[i] + value_at(curve, x)) * (x - curve.x[i]);
}

std::vector<double> running_area(const SampledCurve& curve) {
  std::vector<double> sums(curve.x.size(), 0.0);
  for (std::size_t i = 1; i < sums.size(); ++i) {
    sums[i] = sums[i - 1] + 0.5 * (curve.y[i] + curve.y[i - 1]) * (curve.x[i] - curve.x[i - 1]);
  }
  return sums;
}

} // namespace

void require_curve(const SampledCurve& curve, const char* name) {
  if (curve.x.size() < 2 || curve.x.size() != curve.y.size()) {
    throw OutOfDomain(fmt::format("the {} curve has {} places and {} values; it needs two or more, as many of each",
                                  name, curve.x.size(), curve.y.size()));
  }
  for (std::size_t i = 0; i < curve.x.size(); ++i) {
    if (!std::isfinite(curve.x[i]) || !std::isfinite(curve.y[i])) {
      throw OutOfDomain(fmt::format("point {} of the {} curve is not finite", i + 1, name));
    }
    if (i > 0 && !(curve.x[i] > curve.x[i - 1])) {
      throw OutOfDomain(
          fmt::format("the {} curve goes back at point {}, from {} to {}", name, i + 1, curve.x[i - 1], curve.x[i]));
    }
  }
}

double value_at(const SampledCurve& curve, double x) {
  const std::size_t i = segment_of(curve, x);
  const double share = (x - curve.x[i]) / (curve.x[i + 1] - curve.x[i]);
  return curve.y[i] + share * (curve.y[i + 1] - curve.y[i]);
}

SampledCurve on_grid(const SampledCurve& curve, double from, double to, std::size_t samples) {
  SampledCurve grid;
  grid.x.reserve(samples);
  grid.y.reserve(samples);
  for (std::size_t i = 0; i < samples; ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(samples - 1);
    grid.x.push_back(i + 1 == samples ? to : from + share * (to - from));
    grid.y.push_back(value_at(curve, grid.x.back()));
  }
  return grid;
}

double area(const SampledCurve& curve, double from, double to) {
  const std::vector<double> sums = running_area(curve);
  return area_to(curve, sums, to) - area_to(curve, sums, from);
}

SampledCurve smoothed(const SampledCurve& curve, double width) {
  const std::vector<double> sums = running_area(curve);
  SampledCurve smooth;
  smooth.x = curve.x;
  smooth.y.reserve(curve.y.size());
  for (std::size_t i = 0; i < curve.x.size(); ++i) {
    const double x = curve.x[i];
    const double half = std::min({0.5 * width, x - curve.x.front(), curve.x.back() - x});
    smooth.y.push_back(half > 0 ? (area_to(curve, sums, x + half) - area_to(curve, sums, x - half)) / (2 * half)
                                : curve.y[i]);
  }
  return smooth;
}

} // namespace crushwright
