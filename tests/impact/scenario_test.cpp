// Numbers of regulations, series rules and textbooks. "read": the rule's number was read in a stored copy of it;
// "memory": recalled; the rest is derived. Each is reached by integrating a motion, not only by the energy formula.
#include "crush_curve/test_layers.hpp"
#include "crushwright/impact.hpp"
#include "impact/test_impacts.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <functional>
#include <numbers>
#include <utility>
#include <vector>

using namespace crushwright;
using namespace test_impacts;
using std::numbers::pi;

namespace {

/// Stop onto a wall at one deceleration: crush and force.
ColumnMotion stop_at(double mass, double speed, double decelerations_of_gravity) {
  const CrushCurve curve = constant_force(mass * decelerations_of_gravity * standard_gravity);
  return hit(body(mass), wall(), speed, curve).columns.front();
}

/// Change of speed of a free struck body by a rigid-plastic impact, from the history.
double speed_given(double striker, double struck, double speed) {
  const CrushCurve curve = constant_force(200e3);
  return sample(hit(body(striker), body(struck), speed, curve), 1e-3).struck_speed.back();
}

/// A force-crush law that makes one pulse in time: points (crush, force) at equal steps of time, then a stiff stop.
CrushCurve law_of_pulse(double mass, double time, const std::function<double(double)>& deceleration, double speed) {
  constexpr int steps = 20000;
  const double step = time / steps;
  std::vector<std::pair<double, double>> points;
  double crush = 0, rate = speed;
  for (int i = 0; i < steps; ++i) {
    points.emplace_back(crush, mass * deceleration(i * step));
    const double middle = deceleration((i + 0.5) * step);
    const double next_rate = rate - step * (deceleration(i * step) + 4 * middle + deceleration((i + 1) * step)) / 6;
    const double middle_rate =
        0.5 * (rate + next_rate) + step / 8 * (deceleration((i + 1) * step) - deceleration(i * step));
    crush += step * (rate + 4 * middle_rate + next_rate) / 6;
    rate = next_rate;
    if (rate < 1e-4 * speed)
      break;
  }
  points.emplace_back(crush + 1e-3, points.back().second);
  return test_layers::polyline(points);
}

} // namespace

TEST_CASE("student-series impact attenuator, rule F.8.7: 300 kg at 7.0 m/s") {
  // Read: 300 kg, 7.0 m/s, 7350 J, at most 20 g mean and 40 g peak.
  CHECK(available_energy(body(300), wall(), 7.0) == Approx(7350).epsilon(1e-12));
  const ColumnMotion mean = stop_at(300, 7.0, 20);
  CHECK(mean.absorbed == Approx(7350).epsilon(1e-9));
  CHECK(mean.peak_force == Approx(58.84e3).epsilon(1e-4));
  CHECK(mean.peak_crush == Approx(0.1249).epsilon(5e-4));
  CHECK(stop_at(300, 7.0, 40).peak_force == Approx(117.7e3).epsilon(1e-3));
}

TEST_CASE("top-class single-seater rear rule, art. 16.4 (2004 era): 780 kg at 12 m/s") {
  // Read: 780 kg, 12 m/s, 35 g mean.
  const ColumnMotion column = stop_at(780, 12, 35);
  CHECK(column.absorbed == Approx(56.16e3).epsilon(1e-9));
  CHECK(column.peak_crush == Approx(0.2098).epsilon(5e-4));
  CHECK(column.peak_force == Approx(267.7e3).epsilon(5e-4));
}

TEST_CASE("junior single-seater rules, arts. 16.1 and 16.2: 560 kg at 10 m/s and 650 kg at 12 m/s") {
  // Read: masses and speeds.
  CHECK(stop_at(560, 10, 25).absorbed == Approx(28.0e3).epsilon(1e-9));
  CHECK(stop_at(650, 12, 25).absorbed == Approx(46.8e3).epsilon(1e-9));
}

TEST_CASE("FMVSS 301 rear: 1368 kg at 80 km/h, onto a wall and into a free 1500 kg car") {
  // Speed read, mass from memory.
  const double speed = 80 * kilometre_per_hour;
  CHECK(available_energy(body(1368), wall(), speed) == Approx(337.8e3).epsilon(2e-4));
  const ImpactMotion motion = hit(body(1368), body(1500), speed, constant_force(300e3));
  CHECK(motion.ledger.absorbed == Approx(176.66e3).epsilon(5e-5));
  CHECK(speed_given(1368, 1500, speed) == Approx(38.16 * kilometre_per_hour).epsilon(2e-4));
}

TEST_CASE("UN R153 rear: 1100 kg at 50 km/h, onto a wall and into a free 1500 kg car") {
  // Memory.
  const double speed = 50 * kilometre_per_hour;
  CHECK(available_energy(body(1100), wall(), speed) == Approx(106.1e3).epsilon(5e-4));
  const ImpactMotion motion = hit(body(1100), body(1500), speed, constant_force(150e3));
  CHECK(motion.ledger.absorbed == Approx(61.21e3).epsilon(2e-4));
  CHECK(speed_given(1100, 1500, speed) == Approx(21.15 * kilometre_per_hour).epsilon(3e-4));
}

TEST_CASE("RCAR rear structural test: 1400 kg at 15 km/h into a free 1400 kg car, restitution 0.2") {
  // Speed and mass read. The structure is an elastic-plastic block whose unloading gives this restitution.
  const double speed = 15 * kilometre_per_hour;
  CHECK(available_energy(body(1400), wall(), speed) == Approx(12.15e3).epsilon(5e-4));
  CHECK(available_energy(body(1400), body(1400), speed) == Approx(6.076e3).epsilon(1e-4));
  const CrushCurve curve = block_with_restitution(60e3, 0.2, speed, 700);
  const ImpactMotion motion = hit(body(1400), body(1400), speed, curve);
  CHECK(motion.groups.front().rebound_speed == Approx(0.2 * speed).epsilon(1e-9));
  CHECK(motion.ledger.absorbed == Approx(5.833e3).epsilon(1e-4));
  const ImpactHistory history = sample(motion, 1e-3);
  CHECK(history.struck_speed.back() == Approx(9.0 * kilometre_per_hour).epsilon(1e-9));
  const SpeedsAfter after = speeds_after(body(1400), body(1400), speed, 0, 0.2);
  CHECK(history.struck_speed.back() == Approx(after.second).epsilon(1e-9));
  CHECK(history.striker_speed.back() == Approx(after.first).epsilon(1e-9));
}

TEST_CASE("FMVSS 223 guard: 5650 J within 125 mm is a mean of 45.2 kN") {
  // Read.
  const double mass = 1000, speed = std::sqrt(2 * 5650 / mass);
  const ColumnMotion column = hit(body(mass), wall(), speed, constant_force(45.2e3)).columns.front();
  CHECK(column.peak_crush == Approx(0.125).epsilon(1e-9));
  CHECK(column.absorbed / column.peak_crush == Approx(45.2e3).epsilon(1e-9));
}

TEST_CASE("textbook impact: 1500 kg strikes 2500 kg at rest, which leaves at 15 m/s, restitution 0.5") {
  // Derived: before (m1 + m2) 15 / ((1 + e) m1) = 26.67 m/s, after 1.667 m/s.
  const double before = 4000.0 * 15 / (1.5 * 1500);
  CHECK(before == Approx(26.67).epsilon(2e-4));
  const CrushCurve curve = block_with_restitution(400e3, 0.5, before, 1500.0 * 2500 / 4000);
  const ImpactHistory history = sample(hit(body(1500), body(2500), before, curve), 1e-3);
  CHECK(history.struck_speed.back() == Approx(15).epsilon(1e-9));
  CHECK(history.striker_speed.back() == Approx(1.667).epsilon(3e-4));
  const SpeedsAfter after = speeds_after(body(1500), body(2500), before, 0, 0.5);
  CHECK(after.first == Approx(history.striker_speed.back()).epsilon(1e-9));
  CHECK(after.second == Approx(15).epsilon(1e-12));
}

TEST_CASE("a printed solution of that textbook impact with a wrong sign keeps momentum but is not an impact") {
  // A teaching page prints 80 m/s before and 55 m/s after: the striker would leave faster than the body it pushes.
  CHECK(1500.0 * 80 == Approx(1500 * 55 + 2500 * 15));
  CHECK((15.0 - 55) / 80 == Approx(-0.5)); // its restitution
  const SpeedsAfter after = speeds_after(body(1500), body(2500), 80, 0, 0.5);
  CHECK(after.first <= after.second);
  CHECK(after.second == Approx(45));
  CHECK(after.first == Approx(5));
}

TEST_CASE("a full stop from 50 km/h in 100 ms takes 0.694 m whichever of three pulses it has") {
  const double speed = 50 * kilometre_per_hour, time = 0.1, mass = 1000;
  struct Pulse {
    double peak;                                ///< over the mean
    std::function<double(double)> deceleration; ///< over the peak, at a time over the whole
    double printed;                             ///< peak in g
  };
  const std::vector<Pulse> pulses{{1, [](double) { return 1.0; }, 14.16},
                                  {pi / 2, [](double t) { return std::sin(pi * t); }, 22.25},
                                  {2, [](double t) { return 1 - std::abs(2 * t - 1); }, 28.33}};
  for (const Pulse& pulse : pulses) {
    CAPTURE(pulse.printed);
    const double peak = pulse.peak * speed / time;
    const auto deceleration = [&](double t) { return peak * pulse.deceleration(t / time); };
    const ColumnMotion column =
        hit(body(mass), wall(), speed, law_of_pulse(mass, time, deceleration, speed)).columns.front();
    CHECK(column.peak_crush == Approx(0.694).epsilon(1e-3));
    CHECK(column.peak_force / mass / standard_gravity == Approx(pulse.printed).epsilon(5e-4));
    CHECK(column.stop_time == Approx(time).epsilon(5e-3)); // the law ends with 1e-4 of the speed left
  }
}

TEST_CASE("the height of a packaging layer is v^2 / (2 a e): 145.7 mm for 10 m/s, 50 g and locking strain 0.7") {
  // Ashby and others, Metal Foams: A Design Guide, ch. 11; memory. The crush of a layer that never locks, over 0.7.
  for (const auto& [gravities, printed] : {std::pair{50.0, 0.1457}, std::pair{30.0, 0.2428}}) {
    const double crush = stop_at(10, 10, gravities).peak_crush;
    CHECK(crush / 0.7 == Approx(printed).epsilon(5e-4));
    // A layer of that height is just used up; one a tenth lower locks and breaks the limit.
    const double force = 10 * gravities * standard_gravity;
    const auto peak = [&](double height) {
      const Layer layer = test_layers::layer(0, height, force, test_layers::rigid_plastic_locking(0.7), 0.7);
      return hit(body(10), wall(), 10, crush_curve({layer})).columns.front().peak_force;
    };
    CHECK(peak(1.001 * printed) == Approx(force).epsilon(1e-9));
    CHECK(peak(0.9 * printed) > 10 * force);
  }
}

TEST_CASE("a foam package for 0.5 kg at 4.5 m/s and 10 g on 0.01 m2 is 0.190 to 0.200 m thick") {
  // Gibson and Ashby, Cellular Solids, ch. 8; memory: W / sp from 0.543 to 0.516 is an input. A foam that carries sp
  // up to a strain of W / sp and then locks absorbs that W at sp.
  const double mass = 0.5, speed = 4.5, area = 0.01;
  const double stress = mass * 10 * standard_gravity / area;
  CHECK(available_energy(body(mass), wall(), speed) == Approx(5.06).epsilon(1e-3));
  CHECK(stress == Approx(4.9e3).epsilon(1e-3));
  for (const auto& [capacity, printed] : {std::pair{0.543, 0.190}, std::pair{0.516, 0.200}}) {
    const auto peak = [&, strain = capacity](double thickness) {
      const Layer layer =
          test_layers::layer(0, thickness, stress * area, test_layers::rigid_plastic_locking(strain), strain);
      return hit(body(mass), wall(), speed, crush_curve({layer})).columns.front().peak_force;
    };
    CHECK(peak(printed + 0.0005) == Approx(stress * area).epsilon(1e-9)); // the printed value's last digit
    CHECK(peak(printed - 0.0005) > 2 * stress * area);
  }
}
