#include "crushwright/errors.hpp"
#include "crushwright/sample_statistics.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <boost/math/distributions/students_t.hpp>
#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr std::size_t fewest_points = 3;
constexpr double foreign_level = 0.05;

double two_sided_student(double confidence, double freedom) {
  return quantile(boost::math::students_t(freedom), 0.5 + 0.5 * confidence);
}

void require_points(const std::vector<double>& x, const std::vector<double>& y, const std::vector<double>& weight,
                    double confidence) {
  const auto require = [](bool holds, const std::string& what) {
    if (!holds) {
      throw OutOfDomain(what);
    }
  };
  require(x.size() == y.size() && (weight.empty() || weight.size() == x.size()),
          fmt::format("a line needs as many x as y and weights: {}, {}, {}", x.size(), y.size(), weight.size()));
  require(x.size() >= fewest_points,
          fmt::format("a line with its scatter needs {} points or more, not {}", fewest_points, x.size()));
  require(confidence > 0 && confidence < 1, fmt::format("the confidence is {}, not between 0 and 1", confidence));
  for (std::size_t i = 0; i < x.size(); ++i) {
    require(std::isfinite(x[i]) && std::isfinite(y[i]), fmt::format("point {} is not finite", i + 1));
    require(weight.empty() || (weight[i] > 0 && std::isfinite(weight[i])),
            fmt::format("the weight of point {} is {}, not above 0", i + 1, weight.empty() ? 0 : weight[i]));
  }
  const auto [low, high] = std::minmax_element(x.begin(), x.end());
  require(*high > *low, fmt::format("all points stand at x = {}; a line needs two places", *low));
}

/// Weights over their mean, so that s is the scatter at an average point.
std::vector<double> even_weights(const std::vector<double>& weight, std::size_t count) {
  std::vector<double> even(count, 1.0);
  if (!weight.empty()) {
    const double mean = std::accumulate(weight.begin(), weight.end(), 0.0) / static_cast<double>(count);
    std::transform(weight.begin(), weight.end(), even.begin(), [mean](double w) { return w / mean; });
  }
  return even;
}

/// Sums about the weighted mean, so that far-away x lose no digits.
struct Sums {
  double weight = 0, mean_x = 0, mean_y = 0, xx = 0, xy = 0;
};

Sums sums_of(const std::vector<double>& x, const std::vector<double>& y, const std::vector<double>& w) {
  Sums sums;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sums.weight += w[i];
    sums.mean_x += w[i] * x[i];
    sums.mean_y += w[i] * y[i];
  }
  sums.mean_x /= sums.weight;
  sums.mean_y /= sums.weight;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sums.xx += w[i] * (x[i] - sums.mean_x) * (x[i] - sums.mean_x);
    sums.xy += w[i] * (x[i] - sums.mean_x) * (y[i] - sums.mean_y);
  }
  return sums;
}

/// Residuals with their leverages: the leave-one-out error, and the points that the others do not explain.
void add_diagnostics(const std::vector<double>& x, const std::vector<double>& y, const std::vector<double>& w,
                     const Sums& sums, LineFit& fit) {
  const auto n = static_cast<double>(x.size());
  const double freedom = n - 2;
  const double squares = fit.residual_deviation * fit.residual_deviation * freedom;
  const bool can_tell = x.size() > fewest_points && squares > 0;
  const double limit =
      can_tell ? quantile(complement(boost::math::students_t(freedom - 1), foreign_level / (2 * n))) : 0;
  double missed = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double residual = y[i] - fit.intercept - fit.slope * x[i];
    const double leverage = w[i] * (1 / sums.weight + (x[i] - sums.mean_x) * (x[i] - sums.mean_x) / sums.xx);
    const double held_out = residual / std::max(1e-300, 1 - leverage);
    missed += held_out * held_out;
    if (!can_tell || leverage > 1 - 1e-9) {
      continue;
    }
    const double square = w[i] * residual * residual / (1 - leverage);
    const double others = (squares - square) / (freedom - 1);
    if (others <= 1e-24 * squares ? square > 1e-12 * squares : std::sqrt(square / others) > limit) {
      fit.outliers.push_back(i);
    }
  }
  fit.leave_one_out_error = std::sqrt(missed / n);
}

double variance_of_mean(const LineFit& fit, double x) {
  return std::max(0.0, fit.covariance[0] + 2 * x * fit.covariance[1] + x * x * fit.covariance[2]);
}

double student_of(const LineFit& fit) {
  return two_sided_student(fit.confidence, static_cast<double>(fit.count) - 2);
}

} // namespace

LineFit fitted_line(const std::vector<double>& x, const std::vector<double>& y, const std::vector<double>& weight,
                    double confidence) {
  require_points(x, y, weight, confidence);
  const std::vector<double> w = even_weights(weight, x.size());
  const Sums sums = sums_of(x, y, w);
  LineFit fit;
  fit.count = x.size();
  fit.confidence = confidence;
  fit.slope = sums.xy / sums.xx;
  fit.intercept = sums.mean_y - fit.slope * sums.mean_x;
  double squares = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double residual = (y[i] - sums.mean_y) - fit.slope * (x[i] - sums.mean_x);
    squares += w[i] * residual * residual;
  }
  const double freedom = static_cast<double>(x.size()) - 2;
  fit.residual_deviation = std::sqrt(squares / freedom);
  const double variance = squares / freedom;
  fit.covariance[2] = variance / sums.xx;
  fit.covariance[1] = -sums.mean_x * fit.covariance[2];
  fit.covariance[0] = variance / sums.weight + sums.mean_x * sums.mean_x * fit.covariance[2];
  const double t = two_sided_student(confidence, freedom);
  const double of_intercept = t * std::sqrt(fit.covariance[0]), of_slope = t * std::sqrt(fit.covariance[2]);
  fit.intercept_low = fit.intercept - of_intercept;
  fit.intercept_high = fit.intercept + of_intercept;
  fit.slope_low = fit.slope - of_slope;
  fit.slope_high = fit.slope + of_slope;
  add_diagnostics(x, y, w, sums, fit);
  return fit;
}

double band_of_mean(const LineFit& fit, double x) {
  return student_of(fit) * std::sqrt(variance_of_mean(fit, x));
}

double band_of_new_point(const LineFit& fit, double x) {
  return student_of(fit) * std::sqrt(fit.residual_deviation * fit.residual_deviation + variance_of_mean(fit, x));
}

} // namespace crushwright
