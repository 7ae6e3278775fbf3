#include "crushwright/errors.hpp"
#include "crushwright/sample_statistics.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <boost/math/distributions/students_t.hpp>

namespace crushwright {

namespace {

constexpr double level = 0.05;

/// Grubbs' critical value of |x - mean| / s for n values, two-sided.
double critical_value(std::size_t count) {
  const auto n = static_cast<double>(count);
  const double t = quantile(complement(boost::math::students_t(n - 2), level / (2 * n)));
  return (n - 1) / std::sqrt(n) * std::sqrt(t * t / (n - 2 + t * t));
}

} // namespace

std::vector<std::size_t> outliers(const std::vector<double>& values) {
  for (const double value : values) {
    if (!std::isfinite(value)) {
      throw OutOfDomain("a value is not a finite number");
    }
  }
  std::vector<std::size_t> left(values.size());
  std::iota(left.begin(), left.end(), std::size_t{0});
  std::vector<std::size_t> found;
  while (left.size() >= 3 && found.size() < values.size() / 4) {
    std::vector<double> kept;
    kept.reserve(left.size());
    for (const std::size_t i : left) {
      kept.push_back(values[i]);
    }
    const SampleSummary summary = summarise(kept);
    const auto farthest = std::max_element(left.begin(), left.end(), [&](std::size_t a, std::size_t b) {
      return std::abs(values[a] - summary.mean) < std::abs(values[b] - summary.mean);
    });
    const double distance = std::abs(values[*farthest] - summary.mean);
    if (!(*summary.standard_deviation > 0) || distance <= critical_value(kept.size()) * *summary.standard_deviation) {
      break;
    }
    found.push_back(*farthest);
    left.erase(farthest);
  }
  std::sort(found.begin(), found.end());
  return found;
}

} // namespace crushwright
