#pragma once
#include <functional>
#include <vector>

namespace crushwright {

struct PcgResult {
  int iterations = 0;
  double residual = 0; ///< |b - A x| over |b|, as the recurrence has it [-]
  bool reached = false;
};

/// y = A x; y has the right size already.
using VectorMap = std::function<void(const std::vector<double>& x, std::vector<double>& y)>;

/// Preconditioned conjugate gradients for a symmetric, semidefinite A with a right side in its range. The direction
/// update forgives a preconditioner that is symmetric only up to rounding. Sums in a fixed order: the same bytes for
/// any number of threads.
/// @param solution  start on entry, shape as right_side
/// @param tolerance  of the residual over |right_side| [-]
PcgResult pcg(const VectorMap& matrix, const VectorMap& preconditioner, const std::vector<double>& right_side,
              std::vector<double>& solution, double tolerance, int most_iterations);

/// Dot product in a fixed order, on all cores.
double ordered_dot(const std::vector<double>& a, const std::vector<double>& b);

} // namespace crushwright
