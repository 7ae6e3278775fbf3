#include "lattice_body/node_overlap.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crushwright {

double node_overlap(const std::vector<Eigen::Vector3d>& directions) {
  // The integrand is continuous with corners, so the midpoint rule's error falls with the square of the step.
  constexpr int steps = 7200;
  double sum = 0;
  for (const Eigen::Vector3d& along : directions) {
    const Eigen::Vector3d across = along.unitOrthogonal(), third = along.cross(across);
    for (int step = 0; step < steps; ++step) {
      const double angle = 2 * std::numbers::pi * (step + 0.5) / steps;
      const Eigen::Vector3d outward = std::cos(angle) * across + std::sin(angle) * third;
      double reach = 0; // of the cut with the other bars, on this line of the bar's surface, over r
      for (const Eigen::Vector3d& other : directions)
        if (&other != &along)
          reach = std::max(reach, outward.dot(other) / (1 - along.dot(other)));
      sum += reach;
    }
  }
  return sum * 2 * std::numbers::pi / steps / 3;
}

} // namespace crushwright
