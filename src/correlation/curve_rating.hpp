#pragma once
#include "crushwright/correlation.hpp"

#include <vector>

namespace crushwright {

/// Where one series fits the other best.
struct BestShift {
  int samples = 0;        ///< positive: the predicted series comes later
  double correlation = 0; ///< coefficient there; 1 at no shift when either series is flat
};

/// Shift with the greatest correlation coefficient, of up to a fifth of the samples either way; of equal ones the
/// smaller.
BestShift best_shift(const std::vector<double>& predicted, const std::vector<double>& measured);

/// The four parts and their weighted sum; docs/method/correlation.md.
/// @param predicted, measured  as many samples each, at equal steps, at least 20; not all of `measured` 0.
CurveRating curve_rating(const std::vector<double>& predicted, const std::vector<double>& measured);

} // namespace crushwright
