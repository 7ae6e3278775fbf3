#pragma once
#include "crushwright/sample_statistics.hpp"

#include <cstddef>
#include <vector>

namespace crushwright {

/// Points of a law by density: `group` says which density each belongs to, 0 to groups - 1, none of them empty.
struct GroupedPoints {
  std::vector<double> x, y;
  std::vector<std::size_t> group;
  std::size_t groups = 0;
};

/// Straight line whose weights and intervals come from the scatter inside each group: Welch's way, with
/// Satterthwaite's freedom. docs/method/coupon.md, "Laws", says why not 1 / variance alone.
struct ScatterLine {
  LineFit fit;            ///< intervals as said; its covariance is such that band_of_mean() agrees with the widest
  bool weighted = false;  ///< every group has three points or more; else equal weights, intervals by the residuals
  bool lacks_fit = false; ///< the groups' means lie further from the line than their scatter explains (1 % level)
};
ScatterLine scatter_line(const GroupedPoints& points);

/// Two-sided 95 % Student factor for any freedom from 2 on, within 1 % there and 0.1 % from 4 on.
double student_factor(double freedom);

} // namespace crushwright
