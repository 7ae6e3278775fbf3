#include "crushwright/errors.hpp"
#include "crushwright/metal_test.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr double least_span = 10;  ///< of the rates, fastest over slowest
constexpr double same_rate = 1.05; ///< rates closer than this count as one
constexpr std::size_t fewest_fast_tests = 3;

struct RatePoint {
  double rate = 0, stress = 0;
};

std::vector<RatePoint> sorted_points(const std::vector<double>& rates, const std::vector<double>& stresses) {
  if (rates.size() != stresses.size()) {
    throw OutOfDomain(fmt::format("{} rates for {} stresses", rates.size(), stresses.size()));
  }
  std::vector<RatePoint> points;
  for (std::size_t i = 0; i < rates.size(); ++i) {
    if (!(rates[i] > 0 && stresses[i] > 0 && std::isfinite(rates[i]) && std::isfinite(stresses[i]))) {
      throw OutOfDomain(fmt::format("a test at {} 1/s with {} Pa: both must be above 0", rates[i], stresses[i]));
    }
    points.push_back({rates[i], stresses[i]});
  }
  std::sort(points.begin(), points.end(), [](const RatePoint& a, const RatePoint& b) { return a.rate < b.rate; });
  return points;
}

std::size_t different_rates(const std::vector<RatePoint>& points, double above) {
  std::size_t count = 0;
  double last = above;
  for (const RatePoint& point : points) {
    if (point.rate > last * same_rate) {
      ++count;
      last = point.rate;
    }
  }
  return count;
}

void add_johnson_cook(const std::vector<RatePoint>& points, RateFit& fit) {
  std::vector<double> logarithms, stresses;
  for (const RatePoint& point : points) {
    logarithms.push_back(std::log(point.rate / fit.reference_rate));
    stresses.push_back(point.stress);
  }
  const LineFit line = fitted_line(logarithms, stresses);
  fit.reference_stress = line.intercept;
  fit.johnson_cook_C = line.slope / line.intercept;
  fit.johnson_cook_C_low = line.slope_low / line.intercept;
  fit.johnson_cook_C_high = line.slope_high / line.intercept;
}

void add_cowper_symonds(const std::vector<RatePoint>& points, RateFit& fit) {
  std::vector<double> rates, gains;
  std::set<double> seen;
  for (const RatePoint& point : points) {
    const double gain = point.stress / fit.reference_stress - 1;
    if (point.rate > fit.reference_rate * same_rate && gain > 0) {
      rates.push_back(std::log(point.rate));
      gains.push_back(std::log(gain));
      seen.insert(point.rate);
    }
  }
  if (seen.size() < fewest_fast_tests) {
    return;
  }
  const LineFit line = fitted_line(rates, gains);
  if (line.slope > 0) {
    fit.cowper_symonds_q = 1 / line.slope;
    fit.cowper_symonds_D = std::exp(-line.intercept / line.slope);
  }
}

template <class Law>
double largest_miss(const std::vector<RatePoint>& points, Law law) {
  double largest = 0;
  for (const RatePoint& point : points) {
    largest = std::max(largest, std::abs(law(point.rate) / point.stress - 1));
  }
  return largest;
}

} // namespace

RateFit fitted_rate(const std::vector<double>& rates, const std::vector<double>& stresses) {
  const std::vector<RatePoint> points = sorted_points(rates, stresses);
  RateFit fit;
  if (points.size() < 3) {
    fit.refusal = fmt::format("{} tests: a rate law with its interval needs three or more", points.size());
    return fit;
  }
  const double span = points.back().rate / points.front().rate;
  if (span < least_span) {
    fit.refusal = fmt::format("the fastest test is {:.3g} times as fast as the slowest; a rate law needs a decade or "
                              "more between them",
                              span);
    return fit;
  }
  fit.reference_rate = points.front().rate;
  add_johnson_cook(points, fit);
  if (different_rates(points, fit.reference_rate) >= fewest_fast_tests) {
    add_cowper_symonds(points, fit);
  }
  fit.largest_miss = largest_miss(points, [&](double rate) {
    return fit.reference_stress * (1 + fit.johnson_cook_C * std::log(rate / fit.reference_rate));
  });
  if (fit.cowper_symonds_q) {
    fit.largest_miss = std::min(fit.largest_miss, largest_miss(points, [&](double rate) {
                                  return fit.reference_stress *
                                         (1 + std::pow(rate / *fit.cowper_symonds_D, 1 / *fit.cowper_symonds_q));
                                }));
  }
  return fit;
}

} // namespace crushwright
