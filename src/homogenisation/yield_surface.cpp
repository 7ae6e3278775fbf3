#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "homogenisation/frame_collapse.hpp"
#include "homogenisation/limit_analysis.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace crushwright {

std::vector<YieldPoint> frame_yield_surface(const UnitCell& cell, double size_ratio, const Eigen::Vector3d& direction,
                                            int points) {
  if (points <= 3) {
    throw OutOfDomain(fmt::format("a yield surface of {} points: ask for more than 3", points));
  }
  const Eigen::Vector3d axis = unit_direction(direction);
  const HingedFrame frame = hinged_frame_of(cell, size_ratio);
  std::vector<YieldPoint> surface;
  for (int k = 0; k < points; ++k) {
    const double angle = 2 * std::numbers::pi * k / points;
    const double axial = std::cos(angle);
    const double lateral = std::sin(angle);
    const double load = limit_load(frame, axial_stress(axis, axial, lateral)).lower;
    surface.push_back({load * axial, load * lateral});
  }
  return surface;
}

} // namespace crushwright
