// A group with elements in series by a general-purpose ODE solver: massless joints are solved by bisection at every
// evaluation, so nothing of the march is used. Loading alone, where all forces rise.
#include "crush_curve/test_layers.hpp"
#include "impact/test_impacts.hpp"

#include <array>
#include <boost/numeric/odeint.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

using namespace crushwright;
using namespace test_impacts;

namespace {

using State = std::array<double, 2>;

/// Root of a function that rises through zero in [low, high].
double root(double low, double high, const std::function<double(double)>& rising) {
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (low + high);
    (rising(middle) > 0 ? high : low) = middle;
  }
  return 0.5 * (low + high);
}

struct Chain {
  const CrushCurve* structure;
  const CrushCurve* rail;
  double stagger;

  /// Crush of the structure and force of the line at a shortening of the line.
  std::pair<double, double> at(double shortening) const {
    const double further = shortening - stagger;
    if (further <= 0)
      return {0, 0};
    const double crush =
        root(0, further, [&](double x) { return structure->force_at(x) - rail->force_at(further - x); });
    return {crush, structure->force_at(crush)};
  }
};

struct Car {
  std::vector<Chain> chains;
  const CrushCurve* rest;

  double lines_force(double shortening) const {
    double sum = 0;
    for (const Chain& chain : chains)
      sum += chain.at(shortening).second;
    return sum;
  }
  double shortening(double closing) const {
    return root(0, closing, [&](double x) { return lines_force(x) - rest->force_at(closing - x); });
  }
};

struct Stop {
  double closing, time;
};

Stop by_solver(const Car& car, double mass, double speed) {
  namespace odeint = boost::numeric::odeint;
  const auto rate = [&](const State& y, State& dydt, double) {
    dydt[0] = y[1];
    dydt[1] = -car.lines_force(car.shortening(std::max(0.0, y[0]))) / mass;
  };
  auto stepper = odeint::make_dense_output(1e-11, 1e-11, odeint::runge_kutta_dopri5<State>());
  stepper.initialize(State{0, speed}, 0.0, 1e-6);
  for (;;) {
    const auto interval = stepper.do_step(rate);
    State end;
    stepper.calc_state(interval.second, end);
    if (end[1] > 0)
      continue;
    const double stop = root(interval.first, interval.second, [&](double time) {
      State at;
      stepper.calc_state(time, at);
      return -at[1];
    });
    stepper.calc_state(stop, end);
    return {end[0], stop};
  }
}

CrushCurve lattice(double factor) {
  return test_layers::polyline({{0, 0},
                                {0.004, 42e3 * factor},
                                {0.060, 46e3 * factor},
                                {0.110, 52e3 * factor},
                                {0.150, 60e3 * factor},
                                {0.180, 95e3 * factor},
                                {0.195, 260e3 * factor},
                                {0.205, 900e3 * factor}},
                               30e6 * factor);
}

/// Elastic, then a slow rise: an attachment that hardens.
CrushCurve hardening(double stiffness, double force) {
  return test_layers::polyline({{0, 0}, {force / stiffness, force}, {force / stiffness + 1, force + 2e5}}, stiffness);
}

} // namespace

TEST_CASE("a general ODE solver with massless joints finds the same crush and time for two lines behind one body") {
  const CrushCurve left = lattice(1), right = lattice(1.4);
  const CrushCurve left_rail = hardening(40e6, 55e3), right_rail = hardening(60e6, 70e3),
                   rest = hardening(25e6, 110e3);
  for (const double speed : {3.0, 6.0, 9.0}) {
    const Car car{{{&left, &left_rail, 0}, {&right, &right_rail, 0.015}}, &rest};
    const Stop expected = by_solver(car, 700, speed);
    Line a{"left", &left, {{"left rail", ElementKind::attachment, &left_rail}}};
    Line b{"right", &right, {{"right rail", ElementKind::attachment, &right_rail}}, 0.015};
    const ImpactMotion motion =
        integrate_impact(body(700), wall(), speed, {Group{1, {a, b}, {{"rest", ElementKind::rest_of_body, &rest}}}});
    CAPTURE(speed);
    CHECK(motion.groups[0].peak_closing == Approx(expected.closing).epsilon(1e-6));
    CHECK(motion.groups[0].stop_time == Approx(expected.time).epsilon(1e-6));
    const double shortening = car.shortening(expected.closing);
    CHECK(motion.columns[0].peak_crush == Approx(car.chains[0].at(shortening).first).epsilon(1e-6));
    CHECK(motion.columns[1].peak_crush == Approx(car.chains[1].at(shortening).first).epsilon(1e-6));
    CHECK(motion.elements[2].peak_crush == Approx(expected.closing - shortening).epsilon(1e-6));
    CHECK(std::abs(motion.ledger.residual) <= 1e-9 * motion.ledger.input);
  }
}
