#include "impact/motion_piece.hpp"

#include "crushwright/impact.hpp"

#include <cmath>
#include <limits>

namespace crushwright {
namespace {

/// atan(z)/z for stiffness > 0, atanh(z)/z for stiffness < 0; `square` = ±z².
double arc_ratio(double square) {
  if (std::abs(square) < 1e-4)
    return 1 - square * (1.0 / 3 - square * (1.0 / 5 - square / 7));
  const double z = std::sqrt(std::abs(square));
  return square > 0 ? std::atan(z) / z : std::atanh(z) / z;
}

} // namespace

double LinearResistance::stopping_distance() const {
  const double twice_energy = mass * speed * speed;
  const double root = force * force + stiffness * twice_energy;
  if (root < 0)
    return std::numeric_limits<double>::infinity();
  const double denominator = force + std::sqrt(root);
  return denominator > 0 ? twice_energy / denominator : std::numeric_limits<double>::infinity();
}

double LinearResistance::time_for(double distance, double end_speed) const {
  const double straight = 2 * distance / (speed + end_speed);
  return straight * arc_ratio(stiffness / mass * 0.25 * straight * straight);
}

double MotionPiece::crush_after(double time, double moving_mass) const {
  const double square = stiffness / moving_mass;
  const double wave = std::sqrt(std::abs(square)), phase = wave * time;
  const double acceleration = -force / moving_mass;
  if (phase < 1e-4)
    return crush + time * (speed + time * (0.5 * acceleration - square * speed * time / 6));
  if (square > 0) {
    const double half = std::sin(0.5 * phase);
    return crush + speed / wave * std::sin(phase) + acceleration / square * 2 * half * half;
  }
  const double half = std::sinh(0.5 * phase);
  return crush + speed / wave * std::sinh(phase) - acceleration / square * 2 * half * half;
}

double MotionPiece::speed_after(double time, double moving_mass) const {
  const double square = stiffness / moving_mass;
  const double wave = std::sqrt(std::abs(square)), phase = wave * time;
  const double acceleration = -force / moving_mass;
  if (phase < 1e-4)
    return speed + time * (acceleration - square * time * (0.5 * speed + acceleration * time / 6));
  if (square > 0)
    return speed * std::cos(phase) + acceleration / wave * std::sin(phase);
  return speed * std::cosh(phase) + acceleration / wave * std::sinh(phase);
}

} // namespace crushwright
