#include "coupon/group_scatter.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

constexpr double normal_99 = 2.3263478740408408;  ///< one-sided
constexpr double normal_975 = 1.9599639845400545; ///< two-sided 95 %
constexpr double fewest_in_group = 3;
constexpr double borrowed_freedom = 16; ///< with which a group's weight leans on the pooled variance

struct Moments {
  double count = 0, mean = 0, squares = 0; ///< of residuals; squares about their mean
  double freedom() const { return count - 1; }
  double variance() const { return squares / freedom(); }
};

struct GroupMoments {
  std::vector<Moments> each;
  double pooled = 0; ///< variance inside the groups
};

GroupMoments group_moments(const GroupedPoints& points, const LineFit& fit) {
  GroupMoments found;
  found.each.resize(points.groups);
  std::vector<double> residuals(points.x.size());
  for (std::size_t i = 0; i < residuals.size(); ++i) {
    residuals[i] = points.y[i] - fit.intercept - fit.slope * points.x[i];
    found.each[points.group[i]].count += 1;
    found.each[points.group[i]].mean += residuals[i];
  }
  for (Moments& one : found.each) {
    one.mean /= one.count;
  }
  double squares = 0;
  for (std::size_t i = 0; i < residuals.size(); ++i) {
    const double off = residuals[i] - found.each[points.group[i]].mean;
    found.each[points.group[i]].squares += off * off;
    squares += off * off;
  }
  const std::size_t freedom = residuals.size() - points.groups;
  found.pooled = freedom > 0 ? squares / static_cast<double>(freedom) : 0;
  return found;
}

/// Ratio of the scatter of the means about the line to that inside the groups, by Paulson's normal approximation of
/// the distribution of such ratios (common practice; from freedom 3 below on).
bool lacks_fit(const GroupedPoints& points, const GroupMoments& moments) {
  const double inner = static_cast<double>(points.x.size()) - static_cast<double>(points.groups);
  const double outer = static_cast<double>(points.groups) - 2;
  if (inner < 3 || outer < 1 || !(moments.pooled > 0)) {
    return false;
  }
  double between = 0;
  for (const Moments& one : moments.each) {
    between += one.count * one.mean * one.mean;
  }
  const double root = std::cbrt(between / outer / moments.pooled);
  const double a = 2 / (9 * outer);
  const double b = 2 / (9 * inner);
  return ((1 - b) * root - (1 - a)) / std::sqrt(a + b * root * root) > normal_99;
}

std::vector<double> weights_of(const GroupedPoints& points, const GroupMoments& moments) {
  std::vector<double> weights;
  double sum = 0;
  for (const std::size_t of : points.group) {
    const Moments& one = moments.each[of];
    weights.push_back((one.freedom() + borrowed_freedom) * moments.pooled /
                      (one.squares + borrowed_freedom * moments.pooled));
    sum += weights.back();
  }
  for (double& weight : weights) {
    weight *= static_cast<double>(weights.size()) / sum;
  }
  return weights;
}

/// Variance of a sum of points with given shares, and its freedom.
struct Estimate {
  double variance = 0, freedom = 0;
  double half_width() const { return student_factor(freedom) * std::sqrt(variance); }
};

Estimate welch(const GroupedPoints& points, const GroupMoments& moments, const std::vector<double>& shares) {
  std::vector<double> part(points.groups);
  for (std::size_t i = 0; i < shares.size(); ++i) {
    part[points.group[i]] += shares[i] * shares[i] * moments.each[points.group[i]].variance();
  }
  Estimate estimate;
  double quarters = 0;
  for (std::size_t g = 0; g < points.groups; ++g) {
    estimate.variance += part[g];
    quarters += part[g] * part[g] / moments.each[g].freedom();
  }
  estimate.freedom = estimate.variance * estimate.variance / quarters;
  return estimate;
}

/// Sets covariance and intervals of a weighted line from the scatter inside the groups.
void set_welch_intervals(const GroupedPoints& points, const GroupMoments& moments, const std::vector<double>& weights,
                         LineFit& fit) {
  const auto count = static_cast<double>(points.x.size()); // also the sum of the weights
  double mean = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    mean += weights[i] * points.x[i] / count;
  }
  double squares = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    squares += weights[i] * (points.x[i] - mean) * (points.x[i] - mean);
  }
  std::vector<double> of_slope(weights.size());
  std::vector<double> of_intercept(weights.size());
  double crossed = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    of_slope[i] = weights[i] * (points.x[i] - mean) / squares;
    of_intercept[i] = weights[i] / count - mean * of_slope[i];
    crossed += of_slope[i] * of_intercept[i] * moments.each[points.group[i]].variance();
  }
  const Estimate slope = welch(points, moments, of_slope);
  const Estimate intercept = welch(points, moments, of_intercept);
  fit.slope_low = fit.slope - slope.half_width();
  fit.slope_high = fit.slope + slope.half_width();
  fit.intercept_low = fit.intercept - intercept.half_width();
  fit.intercept_high = fit.intercept + intercept.half_width();
  const double widen = student_factor(std::min(slope.freedom, intercept.freedom)) / student_factor(count - 2);
  fit.covariance[0] = intercept.variance * widen * widen;
  fit.covariance[1] = crossed * widen * widen;
  fit.covariance[2] = slope.variance * widen * widen;
}

} // namespace

double student_factor(double freedom) {
  // Expansion of Student's quantile about the normal one, to the fourth power of 1/freedom (common practice).
  const double z = normal_975;
  const double z2 = z * z;
  const double first = (z2 + 1) / 4;
  const double second = ((5 * z2 + 16) * z2 + 3) / 96;
  const double third = (((3 * z2 + 19) * z2 + 17) * z2 - 15) / 384;
  const double fourth = ((((79 * z2 + 776) * z2 + 1482) * z2 - 1920) * z2 - 945) / 92160;
  const double n = freedom;
  return z * (1 + (first + (second + (third + fourth / n) / n) / n) / n);
}

ScatterLine scatter_line(const GroupedPoints& points) {
  ScatterLine line;
  line.fit = fitted_line(points.x, points.y);
  const GroupMoments moments = group_moments(points, line.fit);
  line.lacks_fit = lacks_fit(points, moments);
  const bool enough = std::all_of(moments.each.begin(), moments.each.end(),
                                  [](const Moments& one) { return one.count >= fewest_in_group && one.squares > 0; });
  if (!enough) {
    return line;
  }
  const std::vector<double> weights = weights_of(points, moments);
  LineFit weighted = fitted_line(points.x, points.y, weights);
  set_welch_intervals(points, moments, weights, weighted);
  // Where the form does not fit, the misses of the means belong to the error: the wider interval stays.
  if (!line.lacks_fit || weighted.slope_high - weighted.slope_low > line.fit.slope_high - line.fit.slope_low) {
    line.fit = weighted;
    line.weighted = true;
  }
  return line;
}

} // namespace crushwright
