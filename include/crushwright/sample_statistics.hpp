#pragma once
#include <optional>
#include <vector>

namespace crushwright {

/// Mean and scatter of one property over specimens. docs/method/sample_statistics.md.
struct SampleSummary {
  std::size_t count = 0;
  double mean = 0;
  std::optional<double> standard_deviation;       ///< freedom n - 1; absent for one specimen
  std::optional<double> coefficient_of_variation; ///< absent with the above, or for a mean of 0
  double confidence = 0.95;                       ///< of the interval below [-]
  std::optional<double> mean_low, mean_high;      ///< two-sided Student interval of the mean; absent for one specimen
};

/// @param values  at least one, finite.  @param confidence  in (0, 1).
/// @throws OutOfDomain as stated; the message carries the value.
SampleSummary summarise(const std::vector<double>& values, double confidence = 0.95);

/// Factor k so that mean - k s lies below a share `population` of all specimens with the stated confidence, for a
/// normal population (non-central t).
/// @param count  n >= 2.  @param population, confidence  in (0, 1).
double one_sided_tolerance_factor(std::size_t count, double population = 0.90, double confidence = 0.95);

/// Factor k so that mean ± k s holds a share `population` with the stated confidence, exact by quadrature.
double two_sided_tolerance_factor(std::size_t count, double population = 0.90, double confidence = 0.95);

/// Values outside what scatter explains: Grubbs' two-sided test at level 5 %, one at a time on what is left, never
/// more than a quarter of the values; from four values on. Flagged, never dropped.
/// @return  indices into `values`, rising.
std::vector<std::size_t> outliers(const std::vector<double>& values);

/// Straight line through weighted points, y = intercept + slope x.
struct LineFit {
  double intercept = 0, slope = 0;
  double residual_deviation = 0; ///< s, freedom n - 2 [units of y at weight 1]
  double confidence = 0.95;
  double intercept_low = 0, intercept_high = 0; ///< two-sided Student intervals
  double slope_low = 0, slope_high = 0;
  double covariance[3] = {0, 0, 0}; ///< var(intercept), cov, var(slope)
  std::size_t count = 0;
  double leave_one_out_error = 0; ///< root mean square miss of each point by the line through the others [units of y]
  std::vector<std::size_t> outliers; ///< points whose studentised residual is beyond Bonferroni's 5 % limit
};

/// @param x, y     of equal length, at least 3, finite, x not all equal.
/// @param weight   of each point, > 0 (1 / variance up to a factor); empty means equal.
/// @throws OutOfDomain as stated.
LineFit fitted_line(const std::vector<double>& x, const std::vector<double>& y,
                    const std::vector<double>& weight = {}, double confidence = 0.95);

/// Half width of the band of the line's mean, or of one new point, at x [units of y].
double band_of_mean(const LineFit& fit, double x);
double band_of_new_point(const LineFit& fit, double x);

} // namespace crushwright
