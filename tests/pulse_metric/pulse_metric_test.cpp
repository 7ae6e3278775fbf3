#include "crushwright/pulse_metric.hpp"

#include "crushwright/errors.hpp"
#include "pulse_metric/test_pulses.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <random>
#include <vector>

using namespace crushwright;
using namespace test_pulses;

namespace {

Signal triangle_20_g_100_ms(double step) {
  return sampled(step, 0.1, [](double time) { return 20 * (1 - std::abs(time - 0.05) / 0.05); });
}

Signal random_record(unsigned seed, std::size_t count) {
  std::mt19937 generator(seed);
  std::uniform_int_distribution<int> value(-8, 12); // whole numbers, so that flat stretches and ties occur
  Signal signal{1e-3, {}};
  for (std::size_t i = 0; i < count; ++i)
    signal.values.push_back(value(generator));
  return signal;
}

double value_at(const Signal& signal, double time) {
  const double place = std::clamp(time / signal.step, 0.0, static_cast<double>(signal.values.size() - 1));
  const auto i = std::min(static_cast<std::size_t>(place), signal.values.size() - 2);
  return signal.values[i] + (place - static_cast<double>(i)) * (signal.values[i + 1] - signal.values[i]);
}

/// Level held without break by looking at every window of a fine grid: never above the true one.
double level_by_looking(const Signal& signal, double duration, int parts_of_step) {
  const double grid = signal.step / parts_of_step;
  const auto places = static_cast<int>(std::lround(static_cast<double>(signal.values.size() - 1) * parts_of_step));
  const auto width = static_cast<int>(std::lround(duration / grid));
  double best = -1e300;
  for (int i = 0; i + width <= places; ++i) {
    double lowest = 1e300;
    for (int j = i; j <= i + width; ++j)
      lowest = std::min(lowest, value_at(signal, j * grid));
    best = std::max(best, lowest);
  }
  return best;
}

} // namespace

TEST_CASE("the 3 ms level of a 20 g triangle of 100 ms is 19.40 g") {
  // 20 (1 - 3 / 100), derived. The sampling has a sample at the peak.
  const Signal triangle = triangle_20_g_100_ms(1e-4);
  CHECK(level_exceeded_for(triangle, 0.003) == Approx(19.40).epsilon(1e-12));
  CHECK(level_exceeded_without_break_for(triangle, 0.003) == Approx(19.40).epsilon(1e-12));
}

TEST_CASE("the 3 ms level of a 20 g haversine of 100 ms is 19.956 g") {
  // 20 cos^2(pi 1.5 / 100), derived; the polyline lies below the curve by at most 20 pi^2 step^2 / (4 duration^2).
  const Signal haversine =
      sampled(1e-4, 0.1, [](double time) { return 20 * std::pow(std::sin(pi * time / 0.1), 2); });
  const double closed_form = 20 * std::pow(std::cos(pi * 0.0015 / 0.1), 2);
  CHECK(closed_form == Approx(19.956).margin(5e-4));
  CHECK(level_exceeded_for(haversine, 0.003) == Approx(closed_form).margin(5e-5));
  CHECK(level_exceeded_without_break_for(haversine, 0.003) == Approx(closed_form).margin(5e-5));
}

TEST_CASE("a square pulse of just the duration holds its full height") {
  Signal square{1e-4, std::vector<double>(100, 0.0)};
  std::fill_n(square.values.begin() + 40, 31, 17.0); // thirty steps are 3 ms
  CHECK(level_exceeded_for(square, 0.003) == Approx(17).epsilon(1e-12));
  CHECK(level_exceeded_without_break_for(square, 0.003) == Approx(17).epsilon(1e-12));
}

TEST_CASE("two spikes add in the cumulative level and not in the level without break") {
  // Two triangles, 30 g high, 2 ms wide at the foot. At level L each lasts 2 (1 - L / 30) ms.
  const Signal spikes = sampled(1e-4, 0.04, [](double time) {
    return 30 *
           (std::max(0.0, 1 - std::abs(time - 0.010) / 0.001) + std::max(0.0, 1 - std::abs(time - 0.030) / 0.001));
  });
  CHECK(level_exceeded_for(spikes, 0.001) == Approx(30 * 0.75).epsilon(1e-9));
  CHECK(level_exceeded_without_break_for(spikes, 0.001) == Approx(30 * 0.5).epsilon(1e-9));
  CHECK(level_exceeded_for(spikes, 0.003) == Approx(30 * 0.25).epsilon(1e-9));
  CHECK(level_exceeded_without_break_for(spikes, 0.003) == Approx(0).margin(1e-9));
}

TEST_CASE("a lower separate hump adds what it can to a cumulative level that ends between whole steps") {
  // Flat at 10 for seven steps with edges of one step, and a hump of 8 with slopes of one step. At level L the total
  // is 7 + 2 (1 - L / 10) + 2 (1 - L / 8) steps, so 7.5 steps end at L = 3.5 / 0.45.
  const Signal pulses{1e-3, {0, 10, 10, 10, 10, 10, 10, 10, 10, 0, 0, 0, 8, 0, 0}};
  CHECK(level_exceeded_for(pulses, 0.0075) == Approx(3.5 / 0.45).epsilon(1e-10));
}

TEST_CASE("a flat stretch gives all its time at its own level") {
  // 5 is held for three steps, one more on the way up to 10 and half of the way down: 4.5 steps, 1.5 just above 5.
  const Signal stepped{1e-3, {0, 5, 5, 5, 5, 10, 0}};
  CHECK(time_above(stepped, 5) == Approx(0.0045).epsilon(1e-12));
  CHECK(level_exceeded_for(stepped, 0.003) == 5);
  CHECK(level_exceeded_for(stepped, 0.0045) == Approx(5).epsilon(1e-10));
}

TEST_CASE("the time above the cumulative level is the duration, and longer just below it") {
  const unsigned seed = GENERATE(range(1U, 13U));
  const Signal record = random_record(seed, 60);
  for (const double duration : {0.0004, 0.003, 0.0075, 0.02, 0.05}) {
    CAPTURE(seed, duration);
    const double level = level_exceeded_for(record, duration);
    CHECK(time_above(record, level - 1e-9) >= duration * (1 - 1e-12));
    CHECK(time_above(record, level + 1e-9) < duration);
  }
}

TEST_CASE("the level without break is the best lowest value of any window") {
  const unsigned seed = GENERATE(range(1U, 13U));
  const Signal record = random_record(seed, 30);
  for (const double duration : {0.0005, 0.001, 0.0023, 0.004, 0.0275}) {
    CAPTURE(seed, duration);
    const double level = level_exceeded_without_break_for(record, duration);
    constexpr int parts = 200;
    const double looked = level_by_looking(record, duration, parts);
    CHECK(level >= looked - 1e-9);
    CHECK(level <= looked + 20.0 / parts); // the steepest slope is 20 a step
    CHECK(level <= level_exceeded_for(record, duration) + 1e-9);
  }
}

TEST_CASE("for a pulse with one hump both levels are the same") {
  const Signal hump = sampled(2e-4, 0.06, [](double time) { return 35 * time / 0.01 * std::exp(1 - time / 0.01); });
  for (const double duration : {0.0005, 0.003, 0.0113, 0.03})
    CHECK(level_exceeded_for(hump, duration) ==
          Approx(level_exceeded_without_break_for(hump, duration)).epsilon(1e-10));
}

TEST_CASE("a duration as long as the signal gives its lowest value") {
  const Signal triangle = triangle_20_g_100_ms(1e-3);
  CHECK(level_exceeded_for(triangle, 0.1) == 0);
  CHECK(level_exceeded_without_break_for(triangle, 0.1) == 0);
}

TEST_CASE("levels rise with the signal and shift with it") {
  const Signal record = random_record(77, 200);
  Signal changed = record;
  for (double& value : changed.values)
    value = 3 * value + 5;
  CHECK(level_exceeded_for(changed, 0.0123) == Approx(3 * level_exceeded_for(record, 0.0123) + 5).epsilon(1e-10));
  CHECK(level_exceeded_without_break_for(changed, 0.0023) ==
        Approx(3 * level_exceeded_without_break_for(record, 0.0023) + 5).epsilon(1e-10));
}

TEST_CASE("a signal shorter than the duration is refused with both times") {
  const auto message = Catch::Matchers::Message("a level held for 3 ms was asked of a signal that lasts 2 ms");
  const Signal brief{1e-3, {1, 2, 1}};
  CHECK_THROWS_MATCHES(level_exceeded_for(brief, 0.003), OutOfDomain, message);
  CHECK_THROWS_MATCHES(level_exceeded_without_break_for(brief, 0.003), OutOfDomain, message);
  CHECK_THROWS_AS(level_exceeded_for(brief, 0), OutOfDomain);
}

TEST_CASE("full stops from 50 km/h in 100 ms have the peaks of their shapes") {
  // Peak over mean: square 1, half-sine pi / 2, triangle 2; 14.16, 22.25 and 28.33 g (derived).
  const double mean = 50 / 3.6 / 0.1 / 9.80665;
  const Signal half_sine = sampled(1e-5, 0.1, [=](double time) { return mean * pi / 2 * std::sin(pi * time / 0.1); });
  Signal triangle = triangle_20_g_100_ms(1e-4);
  for (double& value : triangle.values)
    value *= mean / 10;
  CHECK(mean_over_time(Signal{1e-3, std::vector<double>(101, mean)}) == Approx(14.16).margin(0.005));
  CHECK(mean_over_time(half_sine) == Approx(mean).epsilon(1e-7));
  CHECK(peak(half_sine) == Approx(22.25).margin(0.005));
  CHECK(mean_over_time(triangle) == Approx(mean).epsilon(1e-12));
  CHECK(peak(triangle) == Approx(28.33).margin(0.005));
}

TEST_CASE("the time above a level is that of the straight lines between samples") {
  const Signal triangle = triangle_20_g_100_ms(0.01);
  CHECK(time_above(triangle, 15) == Approx(0.025).epsilon(1e-12));
  CHECK(time_above(triangle, 21) == 0);
  CHECK(time_above(triangle, 0) == Approx(0.1).epsilon(1e-12));
  CHECK(time_above(Signal{0.01, {4, 4, 4}}, 4) == Approx(0.02).epsilon(1e-12));
}

TEST_CASE("values of a signal without samples are refused") {
  CHECK_THROWS_AS(peak(Signal{1e-3, {}}), OutOfDomain);
  CHECK_THROWS_AS(mean_over_time(Signal{1e-3, {}}), OutOfDomain);
  CHECK_THROWS_AS(time_above(Signal{1e-3, {}}, 1), OutOfDomain);
  CHECK(mean_over_time(Signal{1e-3, {6}}) == 6);
}
