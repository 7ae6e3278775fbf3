#pragma once

namespace crushwright {

/// Motion of a mass against force + stiffness x, in closed form for any sign of the stiffness.
///
/// @param mass [kg] > 0, speed [m/s] > 0, force [N] at x = 0, stiffness [N/m].
struct LinearResistance {
  double mass;
  double speed;
  double force;
  double stiffness;

  double speed_squared_after(double distance) const {
    return speed * speed - 2 / mass * distance * (force + 0.5 * stiffness * distance);
  }
  /// Distance to standstill [m]; infinity when the resistance never stops the mass.
  double stopping_distance() const;
  /// Time for a distance that the mass reaches with `end_speed` [s]. tan(ωt/2) = ω x / (v + v'), its hyperbolic twin
  /// for a falling force, and 2x / (v + v') between them: one form, exact for small stiffness.
  double time_for(double distance, double end_speed) const;
};

} // namespace crushwright
