#pragma once
#include "crushwright/scaling_law.hpp"

#include <vector>

namespace crushwright {

/// One computed or measured point of a property over its base property.
struct LawPoint {
  double relative_density = 0; ///< [-], in (0, 1)
  double value = 0;            ///< [-], > 0
};

/// y = C ρ̄^m through points, by least squares on the logarithms: relative misses count alike at every density.
struct PowerLawFit {
  double coefficient = 0;              ///< C [-]
  double exponent = 0;                 ///< m [-]
  double largest_residual = 0;         ///< largest |fit / value - 1| of a point [-]
  double coefficient_of_variation = 0; ///< standard deviation of ln(value / fit), freedom of the fit taken off [-]
  Range range;                         ///< relative densities of the points
};

/// Fewest points of a fit: through two a power law always passes, so that its residual says nothing.
constexpr std::size_t fewest_law_points = 3;

/// Both C and m from the points.
/// @throws OutOfDomain for fewer than three points, a relative density outside (0, 1), a value that is not positive
///         and finite, or points all at one density; the message carries the value.
PowerLawFit fitted_law(const std::vector<LawPoint>& points);

/// C alone, with m = 0: the geometric mean. Errors as above, but for points at one density.
PowerLawFit fitted_constant(const std::vector<LawPoint>& points);

} // namespace crushwright
