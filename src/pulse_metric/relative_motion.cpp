#include "pulse_metric/relative_motion.hpp"

#include "pulse_metric/require_samples.hpp"

#include <algorithm>
#include <array>

namespace crushwright {
namespace {

/// Where the cubic stands still, rising, each clamped to [0, duration]; `duration` where there is no such place.
std::array<double, 2> standstills(const Cubic& cubic, double duration) {
  const double a = 3 * cubic.c3, half_b = cubic.c2, c = cubic.c1;
  const double discriminant = half_b * half_b - a * c;
  if (discriminant < 0)
    return {duration, duration};
  // The sum that does not cancel gives one root, the product of the roots the other.
  const double sum = -(half_b + std::copysign(std::sqrt(discriminant), half_b));
  const auto inside = [&](double time) {
    return std::isfinite(time) && time > 0 && time < duration ? time : duration;
  };
  std::array<double, 2> found{inside(sum / a), inside(c / sum)};
  std::sort(found.begin(), found.end());
  return found;
}

RelativeMotion motion_at_end(const Signal& acceleration) {
  require_samples(acceleration);
  RelativeMotion motion;
  for (std::size_t i = 0; i + 1 < acceleration.values.size(); ++i)
    motion = moved_on(motion, acceleration_from(acceleration, i), acceleration.step);
  return motion;
}

} // namespace

std::optional<double> first_passing(const Cubic& cubic, double level, double duration) {
  const auto [first, second] = standstills(cubic, duration);
  double low = 0;
  for (const double high : {first, second, duration}) {
    // From one standstill to the next the cubic only rises or only falls.
    if (high > low && cubic(high) > level)
      return turning_place(low, high, [&](double time) { return cubic(time) > level; });
    low = high;
  }
  return std::nullopt;
}

double speed_change_by(const Signal& acceleration) {
  return motion_at_end(acceleration).speed;
}

double displacement_by(const Signal& acceleration) {
  return motion_at_end(acceleration).distance;
}

} // namespace crushwright
