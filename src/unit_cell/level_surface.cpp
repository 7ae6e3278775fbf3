#include "unit_cell/level_surface.hpp"

#include "crushwright/errors.hpp"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

constexpr double wave_number = 2 * std::numbers::pi;

Vector as_vector(const CellPoint& p) {
  return {p[0], p[1], p[2]};
}

double value_of(SheetSurface surface, const Vector& s, const Vector& c) {
  switch (surface) {
  case SheetSurface::gyroid:
    return s[0] * c[1] + s[1] * c[2] + s[2] * c[0];
  case SheetSurface::diamond:
    return s[0] * s[1] * s[2] + s[0] * c[1] * c[2] + c[0] * s[1] * c[2] + c[0] * c[1] * s[2];
  case SheetSurface::primitive:
    return c.sum();
  case SheetSurface::iwp:
    return 2 * (c[0] * c[1] + c[1] * c[2] + c[2] * c[0]) - 2 * c.squaredNorm() + 3;
  }
  return 0;
}

/// Value, gradient and second derivatives of a surface function at one point [1, 1/edge, 1/edge²].
struct SurfaceJet {
  double value = 0;
  Vector gradient;
  Eigen::Matrix3d hessian;
};

void add_gyroid(const Vector& s, const Vector& c, SurfaceJet& jet) {
  jet.gradient = {c[0] * c[1] - s[2] * s[0], c[1] * c[2] - s[0] * s[1], c[2] * c[0] - s[1] * s[2]};
  jet.hessian << -s[0] * c[1] - s[2] * c[0], -c[0] * s[1], -c[2] * s[0], //
      -c[0] * s[1], -s[1] * c[2] - s[0] * c[1], -c[1] * s[2],            //
      -c[2] * s[0], -c[1] * s[2], -s[2] * c[0] - s[1] * c[2];
}

void add_diamond(const Vector& s, const Vector& c, SurfaceJet& jet) {
  jet.gradient = {c[0] * (s[1] * s[2] + c[1] * c[2]) - s[0] * (s[1] * c[2] + c[1] * s[2]),
                  c[1] * (s[0] * s[2] + c[0] * c[2]) - s[1] * (s[0] * c[2] + c[0] * s[2]),
                  c[2] * (s[0] * s[1] + c[0] * c[1]) - s[2] * (s[0] * c[1] + c[0] * s[1])};
  const auto mixed = [&](int i, int j, int k) {
    return c[i] * (c[j] * s[k] - s[j] * c[k]) - s[i] * (c[j] * c[k] - s[j] * s[k]);
  };
  const double xy = mixed(0, 1, 2);
  const double xz = mixed(0, 2, 1);
  const double yz = mixed(1, 2, 0);
  jet.hessian << -jet.value, xy, xz, xy, -jet.value, yz, xz, yz, -jet.value;
}

void add_primitive(const Vector& s, const Vector& c, SurfaceJet& jet) {
  jet.gradient = -s;
  jet.hessian = Vector(-c).asDiagonal();
}

void add_iwp(const Vector& s, const Vector& c, SurfaceJet& jet) {
  const double sum = c.sum();
  for (int i = 0; i < 3; ++i) {
    jet.gradient[i] = -2 * s[i] * (sum - c[i]) + 4 * s[i] * c[i];
    for (int j = 0; j < 3; ++j)
      jet.hessian(i, j) = i == j ? -2 * c[i] * (sum - c[i]) + 4 * (2 * c[i] * c[i] - 1) : 2 * s[i] * s[j];
  }
}

SurfaceJet surface_jet(SheetSurface surface, double level, const Vector& point) {
  const Vector angle = wave_number * point;
  const Vector s = angle.array().sin();
  const Vector c = angle.array().cos();
  SurfaceJet jet;
  jet.value = value_of(surface, s, c);
  switch (surface) {
  case SheetSurface::gyroid:
    add_gyroid(s, c, jet);
    break;
  case SheetSurface::diamond:
    add_diamond(s, c, jet);
    break;
  case SheetSurface::primitive:
    add_primitive(s, c, jet);
    break;
  case SheetSurface::iwp:
    add_iwp(s, c, jet);
    break;
  }
  jet.value -= level;
  jet.gradient *= wave_number;
  jet.hessian *= wave_number * wave_number;
  return jet;
}

/// Follows the steepest way onto the surface, never stepping farther than an eighth of the cell.
Vector dropped_onto(SheetSurface surface, double level, Vector p, int steps) {
  for (int i = 0; i < steps; ++i) {
    const SurfaceJet jet = surface_jet(surface, level, p);
    Vector step = -jet.value / std::max(jet.gradient.squaredNorm(), 1e-9) * jet.gradient;
    const double length = step.norm();
    if (length > 0.125)
      step *= 0.125 / length;
    p += step;
    if (length < 1e-12)
      break;
  }
  return p;
}

/// Whether a point where the distance stands still is a nearest one among its neighbours: I + λ ∇∇f positive along
/// the surface.
bool is_nearest(const SurfaceJet& jet, double multiplier) {
  const Vector normal = jet.gradient.normalized();
  const Vector side = normal.unitOrthogonal();
  const Vector up = normal.cross(side);
  const Eigen::Matrix3d curved = Eigen::Matrix3d::Identity() + multiplier * jet.hessian;
  const double a = side.dot(curved * side), b = up.dot(curved * up), mixed = side.dot(curved * up);
  return a > 0 && a * b > mixed * mixed;
}

/// Newton's method for the foot p of x: p - x + λ ∇f = 0 and f = level. False when it does not settle on a nearest
/// point.
bool settle_foot(SheetSurface surface, double level, const Vector& x, Vector& p) {
  const SurfaceJet start = surface_jet(surface, level, p);
  double multiplier = (x - p).dot(start.gradient) / start.gradient.squaredNorm();
  for (int i = 0; i < 25; ++i) {
    const SurfaceJet jet = surface_jet(surface, level, p);
    // The 4 × 4 system by elimination of the multiplier's step.
    const Eigen::Matrix3d matrix = Eigen::Matrix3d::Identity() + multiplier * jet.hessian;
    const Eigen::Matrix3d inverse = matrix.inverse();
    const Vector residual = p - x + multiplier * jet.gradient;
    const double pivot = jet.gradient.dot(inverse * jet.gradient);
    const double multiplier_step = (jet.value - jet.gradient.dot(inverse * residual)) / pivot;
    const Vector step = -inverse * (residual + multiplier_step * jet.gradient);
    if (!step.allFinite() || step.norm() > 0.25)
      return false;
    p += step;
    multiplier += multiplier_step;
    if (step.norm() < 1e-7) // quadratic: the foot is then good to 1e-12
      return is_nearest(surface_jet(surface, level, p), multiplier);
  }
  return false;
}

/// Slow and sure way to a foot: the point's own projection on the tangent plane, dropped onto the surface again.
Vector crept_foot(SheetSurface surface, double level, const Vector& x, Vector p) {
  for (int i = 0; i < 40; ++i) {
    const Vector normal = surface_jet(surface, level, p).gradient.normalized();
    const Vector in_tangent_plane = x - (x - p).dot(normal) * normal;
    const Vector next = dropped_onto(surface, level, p + 0.5 * (in_tangent_plane - p), 4);
    const bool settled = (next - p).norm() < 1e-8;
    p = next;
    if (settled)
      break;
  }
  return p;
}

} // namespace

std::vector<std::string> sheet_surface_names() {
  return {"gyroid", "diamond", "primitive", "iwp"};
}

SheetSurface sheet_surface(std::string_view name) {
  if (name == "gyroid")
    return SheetSurface::gyroid;
  if (name == "diamond")
    return SheetSurface::diamond;
  if (name == "primitive")
    return SheetSurface::primitive;
  if (name == "iwp")
    return SheetSurface::iwp;
  throw OutOfDomain(
      fmt::format("no solid is known for a '{}' surface; known: gyroid, diamond, primitive, iwp", name));
}

double surface_value(SheetSurface surface, const std::array<double, 3>& sines, const std::array<double, 3>& cosines) {
  return value_of(surface, as_vector(sines), as_vector(cosines));
}

double surface_value(SheetSurface surface, const CellPoint& point) {
  const Vector angle = wave_number * as_vector(point);
  return value_of(surface, angle.array().sin(), angle.array().cos());
}

double steepest_slope(SheetSurface surface) {
  // Each partial derivative of gyroid and diamond has the form cos x · p - sin x · q with |p|, |q| <= 1; of I-WP it
  // is 2 sin x (2 cos x - cos y - cos z), at most 2 |sin x| (2 |cos x| + 2) <= 3√3.
  switch (surface) {
  case SheetSurface::gyroid:
  case SheetSurface::diamond:
    return wave_number * std::sqrt(6.0);
  case SheetSurface::primitive:
    return wave_number * std::sqrt(3.0);
  case SheetSurface::iwp:
    return wave_number * 9;
  }
  return 0;
}

namespace {

constexpr double on_surface = 1e-6;    // of f, whose slope is of order 2π
constexpr int steps_onto_surface = 30; // near a flat spot of f the first ones lead astray

/// Distance to the foot found from one start; nothing when that start does not reach the surface.
std::optional<double> distance_from(SheetSurface surface, double level, const Vector& x, const Vector& from) {
  const Vector start = dropped_onto(surface, level, from, steps_onto_surface);
  if (std::abs(surface_jet(surface, level, start).value) > on_surface)
    return std::nullopt;
  Vector foot = start;
  if (!settle_foot(surface, level, x, foot) || (foot - x).norm() > (start - x).norm() + 1e-9)
    foot = crept_foot(surface, level, x, start);
  if (std::abs(surface_jet(surface, level, foot).value) > on_surface)
    return (start - x).norm();
  return (foot - x).norm();
}

/// The same by Newton's method alone; nothing where that does not settle.
std::optional<double> settled_from(SheetSurface surface, double level, const Vector& x, const Vector& from) {
  Vector foot = dropped_onto(surface, level, from, 4);
  if (!settle_foot(surface, level, x, foot))
    return std::nullopt;
  return (foot - x).norm();
}

/// Farther off than this several feet may lie about equally near. Gyroid, diamond and primitive at level 0 have the
/// same room on both sides, and one start finds the nearest.
constexpr double several_feet = 0.06; // cell edges

} // namespace

double distance_to_level(SheetSurface surface, double level, const CellPoint& point) {
  const Vector x(point.data());
  const std::optional<double> found = distance_from(surface, level, x, x);
  const bool even = level == 0 && surface != SheetSurface::iwp;
  if (found && (even || *found < several_feet))
    return *found;
  double nearest = found.value_or(1);
  const double aside = std::min(nearest, 0.1);
  for (int axis = 0; axis < 3; ++axis)
    for (double way : {-aside, aside})
      if (const auto other = settled_from(surface, level, x, x + way * Vector::Unit(axis)))
        nearest = std::min(nearest, *other);
  return nearest;
}

} // namespace crushwright
