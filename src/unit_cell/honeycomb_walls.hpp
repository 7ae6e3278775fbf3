#pragma once
#include "crushwright/unit_cell.hpp"

#include <Eigen/Dense>

#include <array>
#include <vector>

namespace crushwright {

/// A standing wall of a honeycomb: a rectangle in the plane across the axis (z).
struct StandingWall {
  Eigen::Vector2d middle;
  Eigen::Vector2d along; ///< unit vector
  double half_length = 0;
  double half_thickness = 0;

  /// Signed distance to the rectangle.
  double distance(const Eigen::Vector3d& p) const {
    const Eigen::Vector2d offset = p.head<2>() - middle;
    const double out_along = std::abs(offset.dot(along)) - half_length;
    const double out_across = std::abs(offset.x() * along.y() - offset.y() * along.x()) - half_thickness;
    return std::hypot(std::max(out_along, 0.0), std::max(out_across, 0.0)) +
           std::min(std::max(out_along, out_across), 0.0);
  }
};

/// Which regular hexagonal honeycomb an entry means.
struct HoneycombForm {
  double nominal_slope; ///< dρ̄/dτ of the slender walls, by which the form is told
  double quadratic;     ///< c2 of ρ̄ = c1 τ + c2 τ²
  double side;          ///< side of the hexagon over the edge that the wall is measured against
  double doubling;      ///< thickness of one wall of three over that of the others
  const char* walls;    ///< in words
  const char* edge;     ///< in words
};

/// @throws OutOfDomain when no regular honeycomb has this nominal slope.
const HoneycombForm& honeycomb_form(double nominal_slope);

/// Rectangle that repeats, holding two hexagons: √3 × 3 sides [edges].
std::array<double, 2> honeycomb_rectangle(const HoneycombForm& form);

/// The walls in and around the repeating rectangle that come within `reach` of it; walls along y are the doubled
/// ones.
std::vector<StandingWall> honeycomb_walls(const HoneycombForm& form, double size_ratio, double reach);

} // namespace crushwright
