// The same motion by a general-purpose ODE solver: dense-output Dormand-Prince, restarted at every point of the
// curve.
#include "crush_curve/test_layers.hpp"
#include "crushwright/impact.hpp"
#include "impact/test_impacts.hpp"

#include <array>
#include <boost/numeric/odeint.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <functional>

using namespace crushwright;
using namespace test_impacts;

namespace {

using State = std::array<double, 2>; // crush, its rate

struct Result {
  double peak_crush, stop_time, residual_crush, separation_time, rebound_speed;
};

/// Integrates until `event` falls to zero; the event is found by bisection on the dense output.
double integrate_until(State& state, double start, const std::function<double(double)>& force, double mass,
                       const std::function<double(const State&)>& event) {
  namespace odeint = boost::numeric::odeint;
  const auto rate = [&](const State& y, State& dydt, double) {
    dydt[0] = y[1];
    dydt[1] = -force(y[0]) / mass;
  };
  auto stepper = odeint::make_dense_output(1e-13, 1e-13, odeint::runge_kutta_dopri5<State>());
  stepper.initialize(state, start, 1e-7);
  for (;;) {
    const auto interval = stepper.do_step(rate);
    State end;
    stepper.calc_state(interval.second, end);
    if (event(end) > 0)
      continue;
    double before = interval.first, after = interval.second;
    for (int i = 0; i < 80; ++i) {
      const double middle = 0.5 * (before + after);
      stepper.calc_state(middle, end);
      (event(end) > 0 ? before : after) = middle;
    }
    stepper.calc_state(after, state);
    return after;
  }
}

Result by_solver(const CrushCurve& curve, double mass, double speed) {
  State state{0, speed};
  double time = 0, steepest = curve.elastic_stiffness;
  for (std::size_t k = 0; state[1] > 1e-13; ++k) {
    const double slope = (curve.force[k + 1] - curve.force[k]) / (curve.crush[k + 1] - curve.crush[k]);
    steepest = std::max(steepest, slope);
    const double end = k + 2 < curve.crush.size() ? curve.crush[k + 1] : 1e9;
    time = integrate_until(
        state, time, [&](double x) { return curve.force[k] + slope * (x - curve.crush[k]); }, mass,
        [&](const State& y) { return std::min(y[1], end - y[0]); });
  }
  Result result{state[0], time, 0, 0, 0};
  const double stop_force = curve.force_at(state[0]);
  const auto unloading = [&](double x) { return stop_force + steepest * (x - result.peak_crush); };
  result.separation_time =
      integrate_until(state, time, unloading, mass, [&](const State& y) { return unloading(y[0]); });
  result.residual_crush = state[0];
  result.rebound_speed = -state[1];
  return result;
}

void check_against_solver(const CrushCurve& curve, double mass, double speed) {
  const Result expected = by_solver(curve, mass, speed);
  const ImpactMotion motion = hit(body(mass), wall(), speed, curve);
  const ColumnMotion& column = motion.columns.front();
  CAPTURE(mass, speed);
  CHECK(column.peak_crush == Approx(expected.peak_crush).epsilon(1e-7));
  CHECK(column.stop_time == Approx(expected.stop_time).epsilon(1e-7));
  CHECK(column.separation_time == Approx(expected.separation_time).epsilon(1e-7));
  CHECK(column.residual_crush == Approx(expected.residual_crush).epsilon(1e-7));
  CHECK(motion.groups.front().rebound_speed == Approx(expected.rebound_speed).epsilon(1e-7));
}

} // namespace

TEST_CASE("a general ODE solver finds the same crush, times and rebound through a first peak, a plateau and a lock") {
  for (const double speed : {0.5, 1.3, 2.5, 5.0, 7.5, 9.0, 11.0})
    check_against_solver(lattice_like(), 300, speed);
}

TEST_CASE("a general ODE solver finds the same motion of a layered structure") {
  const std::vector<Layer> layers{test_layers::lattice_layer(0, 0.06, 40e3),
                                  test_layers::lattice_layer(0.06, 0.06, 52e3),
                                  test_layers::lattice_layer(0.12, 0.06, 65e3)};
  for (const double speed : {2.0, 6.0, 9.0})
    check_against_solver(crush_curve(layers, {1.4, 0.01}), 180, speed);
}
