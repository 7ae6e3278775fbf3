#include "crushwright/crush_curve.hpp"

#include "crushwright/errors.hpp"

#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace crushwright {
namespace {

void require_positive(double value, const char* what, const char* unit) {
  if (!(value > 0) || !std::isfinite(value))
    throw OutOfDomain(fmt::format("{} is {} {}; it must be above 0", what, value, unit));
}

/// Square tube, 13.06 σ0 b^(1/3) h^(5/3): a quarter of it for each corner with its share of the wall.
FoldingSkin folding_corners(double perimeter, double thickness, int corner_count, double flow_stress) {
  const double side = perimeter / corner_count;
  const double square = 13.06 * flow_stress * std::cbrt(side) * std::pow(thickness, 5.0 / 3.0);
  return {square * corner_count / 4, 0.73};
}

/// Circular tube: static mean force over the effective crush distance.
FoldingSkin folding_smooth(double perimeter, double thickness, double flow_stress) {
  const double diameter = perimeter / std::numbers::pi;
  const double wall_moment = 2 / std::numbers::sqrt3 * flow_stress * thickness * thickness / 4;
  const double effective = 0.86 - 0.568 * std::sqrt(thickness / diameter);
  const double static_force = wall_moment * (20.79 * std::sqrt(diameter / thickness) + 11.90);
  return {static_force / effective, effective};
}

} // namespace

FoldingSkin folding_skin(double perimeter, double thickness, int corner_count, double flow_stress) {
  require_positive(perimeter, "the skin's perimeter", "m");
  require_positive(thickness, "the skin's thickness", "m");
  require_positive(flow_stress, "the skin's flow stress", "Pa");
  if (thickness * 4 > perimeter / std::numbers::pi)
    throw OutOfDomain(fmt::format("a skin {:.2f} mm thick on a perimeter of {:.1f} mm is too thick to fold: the laws "
                                  "need a diameter of at least 4 thicknesses",
                                  thickness * 1e3, perimeter * 1e3));
  if (corner_count >= 3)
    return folding_corners(perimeter, thickness, corner_count, flow_stress);
  return folding_smooth(perimeter, thickness, flow_stress);
}

double interaction_force(double c, double filler_stress, double flow_stress, double width, double thickness) {
  if (!(c >= 0) || !std::isfinite(c))
    throw OutOfDomain(fmt::format("the interaction coefficient is {}; it must be 0 or more", c));
  if (!(filler_stress >= 0) || !std::isfinite(filler_stress))
    throw OutOfDomain(fmt::format("the filler's plateau stress is {} Pa; it must be 0 or more", filler_stress));
  require_positive(flow_stress, "the skin's flow stress", "Pa");
  require_positive(width, "the tube's width", "m");
  require_positive(thickness, "the skin's thickness", "m");
  return c * std::sqrt(filler_stress * flow_stress) * width * thickness;
}

} // namespace crushwright
