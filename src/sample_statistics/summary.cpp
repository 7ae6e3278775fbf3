#include "crushwright/errors.hpp"
#include "crushwright/sample_statistics.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <boost/math/distributions/students_t.hpp>
#include <fmt/format.h>

namespace crushwright {

namespace {

void require(bool holds, const std::string& what) {
  if (!holds) {
    throw OutOfDomain(what);
  }
}

double squares_about(const std::vector<double>& values, double mean) {
  return std::accumulate(values.begin(), values.end(), 0.0,
                         [mean](double sum, double value) { return sum + (value - mean) * (value - mean); });
}

void add_interval(SampleSummary& summary) {
  const auto freedom = static_cast<double>(summary.count - 1);
  const double t = boost::math::quantile(boost::math::students_t(freedom), 0.5 + 0.5 * summary.confidence);
  const double half = t * *summary.standard_deviation / std::sqrt(static_cast<double>(summary.count));
  summary.mean_low = summary.mean - half;
  summary.mean_high = summary.mean + half;
}

} // namespace

SampleSummary summarise(const std::vector<double>& values, double confidence) {
  require(!values.empty(), "a summary needs at least one value");
  require(confidence > 0 && confidence < 1, fmt::format("the confidence is {}, not between 0 and 1", confidence));
  for (const double value : values) {
    require(std::isfinite(value), fmt::format("a value is {}, not a finite number", value));
  }
  SampleSummary summary;
  summary.count = values.size();
  summary.confidence = confidence;
  summary.mean = std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
  if (values.size() < 2) {
    return summary;
  }
  summary.standard_deviation =
      std::sqrt(squares_about(values, summary.mean) / static_cast<double>(values.size() - 1));
  if (summary.mean != 0) {
    summary.coefficient_of_variation = *summary.standard_deviation / std::fabs(summary.mean);
  }
  add_interval(summary);
  return summary;
}

} // namespace crushwright
