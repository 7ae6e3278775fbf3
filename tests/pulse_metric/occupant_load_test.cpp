#include "crushwright/errors.hpp"
#include "crushwright/pulse_metric.hpp"
#include "pulse_metric/test_pulses.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace test_pulses;

namespace {

/// Greatest distance between occupant and body up to the first moment of one speed, belt held at a deceleration, by
/// small steps; infinity when it passes the way first. Shares nothing with the program's solution.
double way_needed(const Signal& body, double belt, double step, double free) {
  double distance = 0, speed = 0;
  for (double time = 0; time < 3; time += step) {
    const double middle = time + step / 2;
    const double push = value_or_zero(body, middle) - (distance > free ? belt : 0);
    distance += step * (speed + push * step / 2);
    speed += push * step;
    if (distance > free && speed <= 0)
      return distance;
    if (distance > 1)
      return 1e9;
  }
  return distance;
}

/// Least belt deceleration that keeps to the way of 300 mm.
double belt_by_small_steps(const Signal& body) {
  double low = 0, high = 2000;
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (low + high);
    (way_needed(body, middle, 2e-6, 0.065) > 0.3 ? low : high) = middle;
  }
  return high;
}

} // namespace

// Definition from memory: 65 mm free, 235 mm held. The values follow from it (derived).
TEST_CASE("a body that slows evenly for long asks 300/235 of its deceleration of the belt: 25.532 g for 20 g") {
  CHECK(occupant_load(constant(20 * g, 0.2, 2e-3)) / g == Approx(20.0 * 300 / 235).epsilon(1e-12));
  CHECK(occupant_load(constant(20 * g, 0.2, 2e-3)) / g == Approx(25.532).margin(5e-4));
  CHECK(occupant_load(constant(7, 0.7, 1e-2)) == Approx(7.0 * 300 / 235).epsilon(1e-12));
}

TEST_CASE("a 20 g square pulse that stops 15 m/s within 76.48 ms has an occupant load of 23.536 g") {
  const double stop = 15 / (20 * g); // derived
  CHECK(stop == Approx(0.07648).margin(5e-6));
  CHECK(occupant_load(constant(20 * g, stop, stop / 60)) / g == Approx(23.536).margin(5e-4));
}

TEST_CASE("a step of 15 m/s has an occupant load of v^2 over twice 235 mm: 48.816 g") {
  CHECK(occupant_load(Signal{1e-7, {0, 1.5e8, 0}}) / g == Approx(48.816).margin(5e-4)); // derived
  CHECK(occupant_load(Signal{1e-4, {0, 1.5e5, 0}}) == Approx(225 / 0.47).epsilon(1e-12));
}

TEST_CASE("any symmetric pulse that is over before the free way is used acts as its step of speed") {
  // A symmetric pulse leaves the distance v T / 2, as a step at its middle does (derived).
  const Signal half_sine = sampled(1e-4, 8e-3, [](double time) { return 1500 * std::sin(pi * time / 8e-3); });
  const double speed = speed_change_by(half_sine);
  CHECK(displacement_by(half_sine) < 0.065);
  CHECK(occupant_load(half_sine) == Approx(speed * speed / 0.47).epsilon(1e-12));
}

TEST_CASE("a rising pulse that ends while the belt holds has the occupant load of its closed form") {
  // a = kt to T, then even speed: t1 = (6 * 65 mm / k)^(1/3); w = kT^2/2, s = kT^3/6 (derived).
  const double k = 8000, end = 0.06;
  const double w = k * end * end / 2, s = k * std::pow(end, 3) / 6, t1 = std::cbrt(6 * 0.065 / k);
  REQUIRE(t1 < end);
  const double closed_form = w / (2 * (end - t1) + 2 * (0.3 - s) / w);
  CHECK(occupant_load(sampled(1e-3, end, [=](double time) { return k * time; })) ==
        Approx(closed_form).epsilon(1e-12));
}

TEST_CASE("the occupant load is that of a belt tried out by small steps") {
  const unsigned seed = GENERATE(range(1U, 7U));
  const Signal record = random_pulse(seed, 25, 4e-3);
  CAPTURE(seed);
  CHECK(occupant_load(record) == Approx(belt_by_small_steps(record)).epsilon(2e-4));
}

TEST_CASE("the occupant load depends on the polyline and not on how finely it is sampled") {
  const unsigned seed = GENERATE(range(1U, 21U));
  const Signal record = random_pulse(seed, 20, 5e-3);
  CAPTURE(seed);
  CHECK(occupant_load(resampled(record, 7)) == Approx(occupant_load(record)).epsilon(1e-11));
}

TEST_CASE("a pulse twice as fast and four times as high asks four times as much of the belt") {
  const Signal record = random_pulse(3, 30, 4e-3);
  Signal fast{record.step / 2, record.values};
  for (double& value : fast.values)
    value *= 4;
  CHECK(occupant_load(fast) == Approx(4 * occupant_load(record)).epsilon(1e-12));
}

TEST_CASE("rest after the pulse, recorded or not, changes no occupant load") {
  Signal record = random_pulse(5, 12, 3e-3);
  record.values.back() = 0;
  Signal longer = record;
  longer.values.resize(200, 0.0);
  CHECK(occupant_load(longer) == Approx(occupant_load(record)).epsilon(1e-11));
}

TEST_CASE("however small the change of speed, the belt is met; without one there is no occupant load") {
  CHECK(occupant_load(constant(0.1, 0.1, 1e-2)) == Approx(1e-4 / 0.47).epsilon(1e-12));
  CHECK(occupant_load(constant(0, 0.1, 1e-2)) == 0);
  CHECK(occupant_load(Signal{1e-3, {50}}) == 0);
  CHECK(occupant_load(constant(-30, 0.1, 1e-2)) == 0);
  CHECK_THROWS_AS(occupant_load(Signal{1e-3, {}}), OutOfDomain);
}
