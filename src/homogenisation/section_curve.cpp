#include "homogenisation/section_curve.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crushwright {
namespace {

constexpr double pi = std::numbers::pi;

double curve_axial(double b) {
  return (2 / pi) * (b + std::sin(b) * std::cos(b));
}
double curve_bending(double b) {
  return std::pow(std::cos(b), 3);
}

/// The angle at which the ray through (axial, bending), both >= 0 and not both zero, meets the curve.
double angle_on_ray(double axial, double bending) {
  // bending n(b) − axial m(b) rises from −axial to bending; Newton's steps that leave the bracket are halved.
  double low = 0;
  double high = 0.5 * pi;
  double b = 0.5 * pi * axial / (axial + bending);
  for (int step = 0; step < 60; ++step) {
    const double miss = bending * curve_axial(b) - axial * curve_bending(b);
    (miss > 0 ? high : low) = b;
    const double cosine = std::cos(b);
    const double rise = cosine * cosine * (4 / pi * bending + 3 * axial * std::sin(b));
    double next = rise > 0 ? b - miss / rise : low;
    if (!(next > low && next < high)) {
      next = 0.5 * (low + high);
    }
    if (std::abs(next - b) < 1e-15) {
      return next;
    }
    b = next;
  }
  return b;
}

/// Outward normal of the curve at an angle, scaled to 1 at the curve: normal · (n, m) = 1 there.
Eigen::Vector2d curve_normal(double b) {
  const Eigen::Vector2d normal(0.75 * pi * std::sin(b), 1);
  return normal / normal.dot(Eigen::Vector2d(curve_axial(b), curve_bending(b)));
}

struct AxialAndBending {
  double gauge = 0;
  Eigen::Vector2d normal = Eigen::Vector2d::Zero(); ///< of |n| and |m|
};

AxialAndBending axial_and_bending(double axial, double bending) {
  if (axial + bending <= 0) {
    return {};
  }
  const Eigen::Vector2d normal = curve_normal(angle_on_ray(axial, bending));
  return {normal.dot(Eigen::Vector2d(axial, bending)), normal};
}

} // namespace

double section_gauge(const Eigen::Vector4d& forces, SectionYield yield) {
  const double axial = yield == SectionYield::all ? std::abs(forces[0]) : 0;
  return std::hypot(axial_and_bending(axial, std::hypot(forces[2], forces[3])).gauge, forces[1]);
}

Eigen::Vector4d section_tangent(const Eigen::Vector4d& forces, SectionYield yield) {
  const double axial = yield == SectionYield::all ? std::abs(forces[0]) : 0;
  const double bending = std::hypot(forces[2], forces[3]);
  const AxialAndBending curve = axial_and_bending(axial, bending);
  const double gauge = std::hypot(curve.gauge, forces[1]);
  Eigen::Vector4d plane = Eigen::Vector4d::Zero();
  if (axial > 0) {
    plane[0] = std::copysign(curve.normal[0], forces[0]);
  }
  if (bending > 0) {
    plane.tail<2>() = curve.normal[1] / bending * forces.tail<2>();
  }
  plane *= curve.gauge / gauge;
  plane[1] = forces[1] / gauge;
  return plane;
}

HingeWork hinge_work(const Eigen::Vector4d& rates) {
  const double stretch = std::abs(rates[0]);
  const double turn = std::hypot(rates[2], rates[3]);
  HingeWork result;
  result.slope.setZero();
  result.bending.setZero();
  result.slope[1] = rates[1];
  result.bending(1, 1) = 1;
  // Past this ratio of stretch to turn the axial corner of the surface does the work, whatever the turn.
  const double sine = turn > 0 ? 4 / (3 * pi) * stretch / turn : 1;
  if (sine >= 1) {
    result.slope[0] = rates[0];
    result.bending(0, 0) = 1;
    result.work = std::hypot(stretch, rates[1]);
    if (stretch == 0) {
      // At rest every direction is as good: bending gets the stiffness that it has on its own.
      result.bending(2, 2) = result.bending(3, 3) = 1;
    }
    return result;
  }
  const double b = std::asin(sine);
  const double n = std::copysign(curve_axial(b), rates[0]);
  const double m = curve_bending(b);
  const Eigen::Vector2d axis = rates.tail<2>() / turn;
  Eigen::Vector4d forces(n, 0, m * axis[0], m * axis[1]);
  const double work = std::abs(n) * stretch + m * turn;
  // The curve's work is proportional to its rates, so that its second derivative works across the ray alone.
  const double across = 16 / (3 * pi * pi) * std::cos(b) / turn;
  Eigen::Vector4d ray(1, 0, -axis[0] * rates[0] / turn, -axis[1] * rates[0] / turn);
  result.bending += forces * forces.transpose() + work * across * ray * ray.transpose();
  const Eigen::Vector4d side(0, 0, -axis[1], axis[0]);
  result.bending += work * m / turn * side * side.transpose();
  result.slope += work * forces;
  result.work = std::hypot(work, rates[1]);
  return result;
}

PlasticForces plastic_forces(double radius) {
  const double cube = radius * radius * radius;
  return {pi * radius * radius, 2 * pi / (3 * std::numbers::sqrt3) * cube, 4.0 / 3 * cube};
}

} // namespace crushwright
