#include "unit_cell/skeletal_level.hpp"

#include "crushwright/errors.hpp"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

double value_off(SheetSurface surface, const CellPoint& middle, const Vector& offset) {
  return surface_value(surface, CellPoint{middle[0] + offset[0], middle[1] + offset[1], middle[2] + offset[2]});
}

/// Evenly spread directions on a golden spiral.
Vector spread_direction(int place, int count) {
  const double z = 1 - (2.0 * place + 1) / count;
  const double turn = std::numbers::pi * (3 - std::sqrt(5.0)) * place;
  const double ring = std::sqrt(1 - z * z);
  return {ring * std::cos(turn), ring * std::sin(turn), z};
}

/// Least f on the sphere of the given radius: the best of spread directions, then ever shorter steps across it.
/// Around the middle of a bond f falls outwards across the bond, so the least in the ball lies on its sphere.
double least_on_sphere(SheetSurface surface, const CellPoint& middle, double radius) {
  constexpr int spread = 400;
  Vector best = spread_direction(0, spread);
  double least = value_off(surface, middle, radius * best);
  for (int i = 1; i < spread; ++i) {
    const Vector direction = spread_direction(i, spread);
    const double value = value_off(surface, middle, radius * direction);
    if (value < least) {
      least = value;
      best = direction;
    }
  }
  for (double step = 0.1; step > 1e-9;) {
    const Vector side = best.unitOrthogonal();
    const Vector up = best.cross(side);
    bool improved = false;
    for (const Vector& way : {side, Vector(-side), up, Vector(-up)}) {
      const Vector direction = (best + step * way).normalized();
      const double value = value_off(surface, middle, radius * direction);
      if (value < least) {
        least = value;
        best = direction;
        improved = true;
      }
    }
    if (!improved)
      step *= 0.5;
  }
  return least;
}

} // namespace

BondMiddle bond_middle(SheetSurface surface) {
  if (surface == SheetSurface::gyroid)
    return {{0, 0.25, 0.125}, std::numbers::sqrt2};
  if (surface == SheetSurface::diamond)
    return {{0.25, 0.25, 0.25}, 1};
  throw OutOfDomain("skeletal cells are known for the surfaces gyroid and diamond only");
}

double neck_at_half_density(SheetSurface surface) {
  const CellPoint middle = bond_middle(surface).place;
  double low = 0.01, high = 0.5;
  while (high - low > 1e-12) {
    const double neck = 0.5 * (low + high);
    (least_on_sphere(surface, middle, 0.5 * neck) > 0 ? low : high) = neck;
  }
  return low;
}

double level_of_neck(SheetSurface surface, double neck_ratio) {
  const double widest = neck_at_half_density(surface);
  if (!(neck_ratio > 0 && neck_ratio <= widest + 1e-9))
    throw OutOfDomain(fmt::format("a neck of {:g} cell edges: expected more than 0 and at most {:.4f}, where the "
                                  "network holds half of the cell",
                                  neck_ratio, widest));
  return std::max(0.0, least_on_sphere(surface, bond_middle(surface).place, 0.5 * neck_ratio));
}

} // namespace crushwright
