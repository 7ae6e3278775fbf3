#include "correlation/common_grid.hpp"
#include "correlation/curve_rating.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr double least_overlap = 0.1;
constexpr std::size_t fewest_samples = 20;

double greatest(const SampledCurve& curve) {
  return *std::max_element(curve.y.begin(), curve.y.end());
}

double ratio_less_one(double predicted, double measured, const char* what) {
  if (!(std::abs(measured) > 0)) {
    throw OutOfDomain(fmt::format("the measured curve's {} is 0, so no error can be set over it", what));
  }
  return predicted / measured - 1;
}

double normalised_error(const SampledCurve& predicted, const SampledCurve& measured) {
  double miss = 0, size = 0;
  for (std::size_t i = 0; i < measured.y.size(); ++i) {
    // Trapezoids on equal steps: the ends count half.
    const double part = i == 0 || i + 1 == measured.y.size() ? 0.5 : 1;
    miss += part * (predicted.y[i] - measured.y[i]) * (predicted.y[i] - measured.y[i]);
    size += part * measured.y[i] * measured.y[i];
  }
  return std::sqrt(miss / size);
}

void require_overlap(const SampledCurve& predicted, const SampledCurve& measured, const Correlation& result) {
  const double range = measured.x.back() - measured.x.front();
  if (!(result.to - result.from >= least_overlap * range)) {
    throw OutOfDomain(fmt::format("the curves have hardly anything in common: predicted from {} to {}, measured from "
                                  "{} to {}",
                                  predicted.x.front(), predicted.x.back(), measured.x.front(), measured.x.back()));
  }
}

void add_plateau(const CorrelationOptions& options, Correlation& result) {
  if (!options.plateau_from || !options.plateau_to) {
    return;
  }
  const double from = *options.plateau_from, to = *options.plateau_to;
  if (!(from >= result.from && to <= result.to && from < to)) {
    result.warnings.push_back(
        fmt::format("no plateau error: its window {:.4g} to {:.4g} is not inside the common range "
                    "{:.4g} to {:.4g}",
                    from, to, result.from, result.to));
    return;
  }
  result.plateau_error = ratio_less_one(area(result.predicted, from, to), area(result.measured, from, to), "plateau");
}

} // namespace

Correlation correlate(const SampledCurve& predicted, const SampledCurve& measured,
                      const CorrelationOptions& options) {
  require_curve(predicted, "predicted");
  require_curve(measured, "measured");
  if (options.samples < fewest_samples) {
    throw OutOfDomain(fmt::format("{} samples are too few; {} or more", options.samples, fewest_samples));
  }
  if (options.filter_width && !(*options.filter_width > 0)) {
    throw OutOfDomain(fmt::format("the filter's width is {}, not above 0", *options.filter_width));
  }
  Correlation result;
  result.from = std::max(predicted.x.front(), measured.x.front());
  result.to = std::min(predicted.x.back(), measured.x.back());
  require_overlap(predicted, measured, result);
  result.predicted = on_grid(predicted, result.from, result.to, options.samples);
  result.measured = on_grid(measured, result.from, result.to, options.samples);
  if (options.filter_width) {
    result.predicted = smoothed(result.predicted, *options.filter_width);
    result.measured = smoothed(result.measured, *options.filter_width);
  }
  if (result.to < measured.x.back()) {
    result.warnings.push_back(
        fmt::format("the measured curve goes on from {:.4g} to {:.4g}, where nothing is predicted", result.to,
                    measured.x.back()));
  }
  add_plateau(options, result);
  result.energy_error = ratio_less_one(area(result.predicted, result.from, result.to),
                                       area(result.measured, result.from, result.to), "area");
  result.peak_error = ratio_less_one(greatest(result.predicted), greatest(result.measured), "peak");
  result.normalised_error = normalised_error(result.predicted, result.measured);
  const BestShift best = best_shift(result.predicted.y, result.measured.y);
  result.cross_correlation = best.correlation;
  result.shift = best.samples * (result.to - result.from) / static_cast<double>(options.samples - 1);
  result.rating = curve_rating(result.predicted.y, result.measured.y);
  return result;
}

} // namespace crushwright
