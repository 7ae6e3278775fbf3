#include "crushwright/errors.hpp"
#include "crushwright/pulse_metric.hpp"
#include "pulse_metric/test_pulses.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace test_pulses;

TEST_CASE("the best 3 ms of a 20 g triangle of 100 ms average 19.70 g") {
  // P (1 - D / 2T) around the peak; derived.
  const Signal triangle = sampled(0.05, 0.1, [](double time) { return 20 * (1 - std::abs(time - 0.05) / 0.05); });
  CHECK(greatest_moving_average(triangle, 0.003) == Approx(19.70).epsilon(1e-12));
  CHECK(greatest_moving_average(resampled(triangle, 37), 0.003) == Approx(19.70).epsilon(1e-12));
}

TEST_CASE("the best window of a half sine is around its peak") {
  // A sin(x) / x with x = pi D / 2T; derived.
  const Signal half_sine = sampled(1e-5, 0.08, [](double time) { return 30 * std::sin(pi * time / 0.08); });
  const double x = pi * 0.01234 / 0.16;
  CHECK(greatest_moving_average(half_sine, 0.01234) == Approx(30 * std::sin(x) / x).epsilon(1e-7));
}

TEST_CASE("no window of a fine grid averages more, and the best of them nearly as much") {
  const unsigned seed = GENERATE(range(1U, 13U));
  const Signal record = random_pulse(seed, 30, 1e-3);
  for (const double duration : {0.0005, 0.001, 0.0023, 0.004, 0.0275}) {
    CAPTURE(seed, duration);
    constexpr int parts = 100;
    const double grid = record.step / parts;
    const auto places = static_cast<int>(record.values.size() - 1) * parts;
    const auto width = static_cast<int>(std::lround(duration / grid));
    double looked = 0;
    for (int i = 0; i + width <= places; ++i) {
      double sum = 0; // the grid has every sample, so the trapezoids are exact
      for (int j = i; j < i + width; ++j)
        sum += (value_or_zero(record, j * grid) + value_or_zero(record, (j + 1) * grid)) / 2;
      looked = std::max(looked, sum / width);
    }
    const double average = greatest_moving_average(record, duration);
    CHECK(average >= looked * (1 - 1e-9));
    CHECK(average <= looked * (1 + 1e-2));
    CHECK(average <= peak(record));
    CHECK(average >= level_exceeded_without_break_for(record, duration) - 1e-9);
  }
}

TEST_CASE("a window as long as the signal gives the mean over its time") {
  const Signal record = random_pulse(4, 31, 1e-4);
  CHECK(greatest_moving_average(record, 0.003) == Approx(mean_over_time(record)).epsilon(1e-12));
}

TEST_CASE("a window longer than the signal is refused with both times") {
  CHECK_THROWS_MATCHES(greatest_moving_average(Signal{1e-3, {1, 2, 1}}, 0.003), OutOfDomain,
                       Catch::Matchers::Message("a moving average over 3 ms was asked of a signal that lasts 2 ms"));
  CHECK_THROWS_AS(greatest_moving_average(Signal{1e-3, {1, 2, 1}}, 0), OutOfDomain);
  CHECK_THROWS_AS(greatest_moving_average(Signal{1e-3, {}}, 0.003), OutOfDomain);
}

TEST_CASE("speed change and displacement of half sine, triangle and square are those of the closed forms") {
  // 2AT/pi, PT/2, aT; a symmetric pulse leaves v T / 2 (derived).
  const double time = 0.08;
  const Signal half_sine = sampled(1e-5, time, [=](double t) { return 300 * std::sin(pi * t / time); });
  CHECK(speed_change_by(half_sine) == Approx(2 * 300 * time / pi).epsilon(1e-7));
  CHECK(displacement_by(half_sine) == Approx(300 * time * time / pi).epsilon(1e-7));
  const Signal triangle{time / 2, {0, 400, 0}};
  CHECK(speed_change_by(triangle) == Approx(400 * time / 2).epsilon(1e-12));
  CHECK(displacement_by(triangle) == Approx(400 * time * time / 4).epsilon(1e-12));
  CHECK(speed_change_by(constant(200, time, time / 10)) == Approx(200 * time).epsilon(1e-12));
  CHECK(displacement_by(constant(200, time, time / 10)) == Approx(100 * time * time).epsilon(1e-12));
  const Signal record = random_pulse(9, 50, 1e-3);
  CHECK(speed_change_by(resampled(record, 3)) == Approx(speed_change_by(record)).epsilon(1e-12));
  CHECK(displacement_by(resampled(record, 3)) == Approx(displacement_by(record)).epsilon(1e-12));
  CHECK(speed_change_by(Signal{1e-3, {7}}) == 0);
  CHECK_THROWS_AS(speed_change_by(Signal{1e-3, {}}), OutOfDomain);
  CHECK_THROWS_AS(displacement_by(Signal{0, {1, 2}}), OutOfDomain);
}
