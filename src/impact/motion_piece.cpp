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

namespace {

/// sin(φ)/φ and 2 (1 - cos φ)/φ², or their hyperbolic twins: `square` = ±φ². Both tend to 1, so that one form serves
/// every stiffness; a short series where the functions would lose digits and cost time.
struct WaveRatios {
  double sine;
  double one_less_cosine;
};

WaveRatios wave_ratios(double square) {
  if (std::abs(square) < 0.04)
    return {1 - square / 6 * (1 - square / 20 * (1 - square / 42 * (1 - square / 72))),
            1 - square / 12 * (1 - square / 30 * (1 - square / 56 * (1 - square / 90)))};
  const double phase = std::sqrt(std::abs(square));
  const double half = square > 0 ? std::sin(0.5 * phase) : std::sinh(0.5 * phase);
  return {(square > 0 ? std::sin(phase) : std::sinh(phase)) / phase, 4 * half * half / (phase * phase)};
}

} // namespace

double MotionPiece::closing_after(double time, double moving_mass) const {
  const WaveRatios wave = wave_ratios(stiffness / moving_mass * time * time);
  return closing + time * (speed * wave.sine - 0.5 * force / moving_mass * time * wave.one_less_cosine);
}

double MotionPiece::speed_after(double time, double moving_mass) const {
  const double square = stiffness / moving_mass * time * time;
  const WaveRatios wave = wave_ratios(square);
  return speed * (1 - 0.5 * square * wave.one_less_cosine) - force / moving_mass * time * wave.sine;
}

} // namespace crushwright
