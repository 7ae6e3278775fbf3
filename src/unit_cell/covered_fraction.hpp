#pragma once
#include <algorithm>

namespace crushwright {

/// Sampled boundaries are softened over this many grid spacings either side.
constexpr double boundary_half_width = 2;

/// Part of a sample that counts as metal: the integral of the weight 35/32 (1 - u²)³ from u to 1, smooth enough at
/// its ends that the grid leaves no trace.
inline double covered_fraction(double signed_distance, double half_width) {
  const double u = std::clamp(signed_distance / half_width, -1.0, 1.0);
  const double u2 = u * u;
  return 0.5 - 35.0 / 32.0 * u * (1 - u2 * (1 - u2 * (0.6 - u2 / 7)));
}

} // namespace crushwright
