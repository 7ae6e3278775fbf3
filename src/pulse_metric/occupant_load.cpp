#include "crushwright/pulse_metric.hpp"
#include "pulse_metric/relative_motion.hpp"
#include "pulse_metric/require_samples.hpp"

#include <algorithm>

namespace crushwright {
namespace {

/// The occupant is free until `caught`; from there on `since` is the time that the belt has held it.
struct Occupant {
  OccupantTravel travel;
  RelativeMotion motion;
  double since = 0; ///< [s]
  bool caught = false;

  /// Distance between occupant and body if the belt has brought both to one speed just now.
  /// With w the speed that the body has lost and s the distance it has fallen behind, the belt's constant
  /// deceleration is w / since, and what it takes off the distance is w since / 2.
  Cubic distance_at_one_speed(const LinearAcceleration& body) const {
    const auto [a, j] = body;
    const auto [s, w] = motion;
    return {s - w * since / 2, (w - a * since) / 2, -j * since / 4, -j / 12};
  }

  void move_on(const LinearAcceleration& body, double time) {
    motion = moved_on(motion, body, time);
    if (caught)
      since += time;
  }

  /// Goes on for a stretch of time. @return the belt's deceleration if it has done its work by then.
  std::optional<double> over(LinearAcceleration body, double duration) {
    if (!caught) {
      const auto until = first_passing(distance_over_time(motion, body), travel.free, duration);
      move_on(body, until.value_or(duration));
      if (!until)
        return std::nullopt;
      caught = true;
      body = later(body, *until);
      duration -= *until;
    }
    const auto until = first_passing(distance_at_one_speed(body), travel.free + travel.restrained, duration);
    move_on(body, until.value_or(duration));
    // A body that moves the other way by then asks nothing of the belt.
    return until ? std::optional<double>(std::max(0.0, motion.speed / since)) : std::nullopt;
  }

  /// After the pulse the body keeps its speed, so both distances grow evenly.
  double after_the_pulse() const {
    const auto [s, w] = motion;
    if (w <= 0)
      return 0;
    if (!caught)
      return w * w / (2 * travel.restrained);
    return w / (2 * since + 2 * (travel.free + travel.restrained - s) / w);
  }
};

} // namespace

double occupant_load(const Signal& acceleration, const OccupantTravel& travel) {
  require_samples(acceleration);
  Occupant occupant{travel, {}};
  for (std::size_t i = 0; i + 1 < acceleration.values.size(); ++i)
    if (const auto found = occupant.over(acceleration_from(acceleration, i), acceleration.step))
      return *found;
  return occupant.after_the_pulse();
}

} // namespace crushwright
