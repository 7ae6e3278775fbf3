#include "crushwright/pulse_metric.hpp"
#include "pulse_metric/relative_motion.hpp"
#include "pulse_metric/require_samples.hpp"

#include <algorithm>
#include <numbers>
#include <vector>

namespace crushwright {
namespace {

/// Stretch y of the spring under a linear acceleration of the body: y'' + w^2 y = a + j t, in closed form
/// y = (a + j t) / w^2 + A cos wt + B sin wt.
struct Oscillation {
  double rate; ///< w [rad/s]
  RelativeMotion first;
  LinearAcceleration body;

  // Written so that a spring that is just taut and lengthens has no stretch below 0 by rounding, however short the
  // time.
  double stretch(double time) const {
    const double angle = rate * time, half = std::sin(angle / 2);
    return first.distance * std::cos(angle) + first.speed / rate * std::sin(angle) +
           (2 * body.start * half * half + body.slope / rate * (angle - std::sin(angle))) / (rate * rate);
  }
  double speed(double time) const {
    const double angle = rate * time, half = std::sin(angle / 2);
    return first.speed * std::cos(angle) + (body.start / rate - rate * first.distance) * std::sin(angle) +
           2 * body.slope * half * half / (rate * rate);
  }

  /// Places in (0, duration) at which the stretch stands still, and the duration itself; rising.
  std::vector<double> turns(double duration) const {
    std::vector<double> found;
    const double cosine = first.distance - body.start / (rate * rate), steady = body.slope / (rate * rate);
    const double sine = (first.speed - steady) / rate, swing = rate * std::hypot(cosine, sine);
    if (std::abs(steady) < swing) {
      // speed = steady + swing cos(wt + phase)
      const double phase = std::atan2(cosine, sine), half = std::acos(-steady / swing);
      constexpr double round = 2 * std::numbers::pi;
      for (const double angle : {half - phase, -half - phase})
        for (double at = angle - round * std::floor(angle / round); at < rate * duration; at += round)
          if (at > 0)
            found.push_back(at / rate);
      std::sort(found.begin(), found.end());
    }
    found.push_back(duration);
    return found;
  }
};

/// A mass on a slack spring in a body; the spring pulls only.
struct SpringOccupant {
  BeltSpring spring;
  RelativeMotion stretch; ///< distance below 0 while slack
  bool pulled = false;
  double greatest = 0; ///< stretch [m]

  double rate() const { return std::sqrt(spring.stiffness); }

  /// Free flight to the end of the stretch of time, or to where the spring is taut. @return the time that took.
  double fly(const LinearAcceleration& body, double duration) {
    const auto taut = first_passing(distance_over_time(stretch, body), 0, duration);
    stretch = moved_on(stretch, body, taut.value_or(duration));
    pulled = taut.has_value();
    if (pulled)
      stretch.distance = 0;
    return taut.value_or(duration);
  }

  /// On the spring to the end of the stretch of time, or to where it is slack again. @return the time that took.
  double swing(const LinearAcceleration& body, double duration) {
    const Oscillation oscillation{rate(), stretch, body};
    double last = 0;
    for (const double turn : oscillation.turns(duration)) {
      const double reached = oscillation.stretch(turn);
      greatest = std::max(greatest, reached);
      if (reached < 0) {
        const double slack = turning_place(last, turn, [&](double time) { return oscillation.stretch(time) < 0; });
        stretch = {0, oscillation.speed(slack)};
        pulled = false;
        return slack;
      }
      last = turn;
    }
    stretch = {oscillation.stretch(duration), oscillation.speed(duration)};
    return duration;
  }

  void over(LinearAcceleration body, double duration) {
    const double rounding = 1e-14 * duration; // what is left by differences of times
    while (duration > rounding) {
      const double taken = pulled ? swing(body, duration) : fly(body, duration);
      body = later(body, taken);
      duration -= taken;
    }
  }

  /// After the pulse the body keeps its speed: a free swing, if it is still to come.
  void after_the_pulse() {
    if (stretch.speed > 0)
      greatest = std::max(greatest, std::hypot(pulled ? stretch.distance : 0, stretch.speed / rate()));
  }
};

} // namespace

double pulse_index(const Signal& acceleration, const BeltSpring& spring) {
  require_samples(acceleration);
  SpringOccupant occupant{spring, {-spring.slack, 0}};
  for (std::size_t i = 0; i + 1 < acceleration.values.size(); ++i)
    occupant.over(acceleration_from(acceleration, i), acceleration.step);
  occupant.after_the_pulse();
  return spring.stiffness * occupant.greatest;
}

} // namespace crushwright
