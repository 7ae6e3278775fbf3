#pragma once
#include "crushwright/pulse_metric.hpp"

#include <cmath>
#include <cstddef>
#include <optional>

namespace crushwright {

/// How far a body has fallen behind one that keeps its first speed, and how much slower it is.
struct RelativeMotion {
  double distance = 0; ///< [m]
  double speed = 0;    ///< [m/s]
};

/// The body's acceleration over a stretch of time: start + slope t.
struct LinearAcceleration {
  double start = 0; ///< [m/s^2]
  double slope = 0; ///< [m/s^3]
};

inline LinearAcceleration acceleration_from(const Signal& signal, std::size_t sample) {
  return {signal.values[sample], (signal.values[sample + 1] - signal.values[sample]) / signal.step};
}

inline LinearAcceleration later(const LinearAcceleration& acceleration, double time) {
  return {acceleration.start + acceleration.slope * time, acceleration.slope};
}

inline RelativeMotion moved_on(const RelativeMotion& from, const LinearAcceleration& acceleration, double time) {
  const auto [a, j] = acceleration;
  return {from.distance + time * (from.speed + time * (a / 2 + time * j / 6)),
          from.speed + time * (a + time * j / 2)};
}

/// c0 + c1 t + c2 t^2 + c3 t^3.
struct Cubic {
  double c0 = 0, c1 = 0, c2 = 0, c3 = 0;
  double operator()(double time) const { return c0 + time * (c1 + time * (c2 + time * c3)); }
};

/// Distance of `moved_on` as a polynomial of the time.
inline Cubic distance_over_time(const RelativeMotion& from, const LinearAcceleration& acceleration) {
  return {from.distance, from.speed, acceleration.start / 2, acceleration.slope / 6};
}

/// Place in [low, high] at which `beyond`, false before it, turns true: the least number known to be beyond.
/// @param high  beyond.
template <class Beyond>
double turning_place(double low, double high, const Beyond& beyond) {
  for (double middle = 0.5 * (low + high); middle > low && middle < high; middle = 0.5 * (low + high))
    (beyond(middle) ? high : low) = middle;
  return high;
}

/// First time in [0, duration] at which a cubic that starts at or below a level passes above it.
std::optional<double> first_passing(const Cubic& cubic, double level, double duration);

} // namespace crushwright
