#include "crushwright/errors.hpp"
#include "crushwright/pulse_metric.hpp"
#include "pulse_metric/test_pulses.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace test_pulses;

namespace {

/// Greatest pull by fourth-order Runge-Kutta steps; the body keeps its speed for a while after the signal.
double by_small_steps(const Signal& body, const BeltSpring& spring, double step) {
  double x = 0, v = 0, greatest = 0;
  const auto pull = [&](double distance) { return spring.stiffness * std::max(0.0, distance - spring.slack); };
  const double end = static_cast<double>(body.values.size() - 1) * body.step + 0.3;
  for (double time = 0; time < end; time += step) {
    const auto push = [&](double at, double distance) { return value_or_zero(body, time + at) - pull(distance); };
    const double v1 = v, a1 = push(0, x);
    const double v2 = v + a1 * step / 2, a2 = push(step / 2, x + v1 * step / 2);
    const double v3 = v + a2 * step / 2, a3 = push(step / 2, x + v2 * step / 2);
    const double v4 = v + a3 * step, a4 = push(step, x + v3 * step);
    x += step * (v1 + 2 * v2 + 2 * v3 + v4) / 6;
    v += step * (a1 + 2 * a2 + 2 * a3 + a4) / 6;
    greatest = std::max(greatest, pull(x));
  }
  return greatest;
}

} // namespace

// Parameters of ISO/TR 12353-3: 2500 N/m per kg, 30 mm slack. Values derived from them in closed form.
TEST_CASE("the pulse index of a long 10 g square pulse is 25.905 g") {
  const double a = 10 * g, closed_form = a * (1 + std::sqrt(1 + 2 * 0.03 * 2500 / a));
  CHECK(pulse_index(constant(a, 0.2, 1e-3)) == Approx(closed_form).epsilon(1e-12));
  CHECK(pulse_index(constant(a, 0.2, 1e-3)) / g == Approx(25.905).margin(5e-4));
}

TEST_CASE("the pulse index of a step of 15 m/s is 76.48 g") {
  CHECK(pulse_index(Signal{1e-7, {0, 1.5e8, 0}}) / g == Approx(76.48).margin(5e-3)); // 50 rad/s * 15 m/s
  CHECK(pulse_index(Signal{1e-4, {0, 1.5e5, 0}}) == Approx(750).epsilon(1e-12));
}

TEST_CASE("any symmetric pulse that is over within the slack acts as its step of speed") {
  const Signal half_sine = sampled(1e-4, 6e-3, [](double time) { return 1200 * std::sin(pi * time / 6e-3); });
  CHECK(displacement_by(half_sine) < 0.03);
  CHECK(pulse_index(half_sine) == Approx(50 * speed_change_by(half_sine)).epsilon(1e-12));
}

TEST_CASE("without slack a half sine of two natural periods has the shock response of the closed form") {
  // Undamped oscillator, peaks at w_p t = 2 pi n r / (1 + r) with r = w_p / w; greatest sin(2 pi r / (1 + r)) / (1 -
  // r) while the pulse lasts (derived; the shock spectrum of the half sine). r = 1/4: 1.268.
  const double time = 2 * 2 * pi / 50, r = 0.25;
  const double factor = std::sin(2 * pi * r / (1 + r)) / (1 - r);
  CHECK(factor == Approx(1.268).margin(5e-4));
  const Signal half_sine = sampled(time / 4000, time, [=](double t) { return 100 * std::sin(pi * t / time); });
  CHECK(pulse_index(half_sine, {2500, 0}) == Approx(100 * factor).epsilon(1e-6));
}

TEST_CASE("without slack the response to a ramp that stays on its top is that of the closed form") {
  // Rise in T, then held: 1 + |sin(wT/2)| / (wT/2) of the top (the undamped response spectrum of a ramp; derived).
  const double rise = 0.04, half = 50 * rise / 2;
  const Signal ramp = sampled(rise / 4, 1.0, [=](double t) { return 80 * std::min(1.0, t / rise); });
  CHECK(pulse_index(ramp, {2500, 0}) == Approx(80 * (1 + std::abs(std::sin(half)) / half)).epsilon(1e-12));
}

TEST_CASE("a greatest pull between two far samples is found") {
  // One straight piece, several swings long: the response to a square pulse without slack is twice the pulse.
  CHECK(pulse_index(Signal{0.5, {90, 90}}, {2500, 0}) == Approx(180).epsilon(1e-12));
}

TEST_CASE("the pulse index is that of small steps, also where the belt goes slack and is caught again") {
  const unsigned seed = GENERATE(range(1U, 13U));
  CAPTURE(seed);
  Signal record = random_pulse(seed, 30, 8e-3);
  for (std::size_t i = 0; i < record.values.size(); ++i) // of both signs, so that the occupant flies back and returns
    record.values[i] -= i % 11 > 5 ? 150 : 0;
  CHECK(pulse_index(record) == Approx(by_small_steps(record, {}, 1e-5)).epsilon(1e-5));
}

TEST_CASE("the pulse index depends on the polyline and not on how finely it is sampled") {
  const unsigned seed = GENERATE(range(1U, 41U));
  CAPTURE(seed);
  Signal record = random_pulse(seed, 40, 5e-3);
  if (seed % 2 == 0)
    for (double& value : record.values)
      value = std::round(value / 40) * 40 - 80; // flat stretches and zeros
  CHECK(pulse_index(resampled(record, 5)) == Approx(pulse_index(record)).epsilon(1e-9));
}

TEST_CASE("a spring that comes taut just at a sample swings on from there") {
  // Whole numbers bring the occupant to the end of the slack at a sample, up to rounding.
  const Signal record{0.01, {-100, 0, 200, 50, 200, 0, -150, 0}};
  CHECK(pulse_index(resampled(record, 2)) == Approx(pulse_index(record)).epsilon(1e-9));
  CHECK(pulse_index(record) == Approx(by_small_steps(record, {}, 1e-5)).epsilon(1e-5));
}

TEST_CASE("however small the change of speed, the slack is used up; without one there is no pulse index") {
  CHECK(pulse_index(constant(0.1, 0.1, 1e-2)) == Approx(50 * 0.01).epsilon(1e-12));
  CHECK(pulse_index(constant(0, 0.1, 1e-2)) == 0);
  CHECK(pulse_index(constant(-30, 0.1, 1e-2)) == 0);
  CHECK(pulse_index(Signal{1e-3, {50}}) == 0);
  CHECK_THROWS_AS(pulse_index(Signal{1e-3, {}}), OutOfDomain);
}
