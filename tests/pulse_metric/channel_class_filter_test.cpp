#include "pulse_metric/channel_class_filter.hpp"

#include "crushwright/errors.hpp"
#include "crushwright/pulse_metric.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <functional>
#include <numbers>
#include <utility>
#include <vector>

using namespace crushwright;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double class_60_design = 2 * pi * 60 * 2.0775; // [rad/s]

Signal sampled(double step, double time, const std::function<double(double)>& value) {
  Signal signal{step, {}};
  const auto count = static_cast<std::size_t>(std::lround(time / step)) + 1;
  for (std::size_t i = 0; i < count; ++i)
    signal.values.push_back(value(static_cast<double>(i) * step));
  return signal;
}

double largest_difference(const std::vector<double>& p, const std::vector<double>& q) {
  REQUIRE(p.size() == q.size());
  double largest = 0;
  for (std::size_t i = 0; i < p.size(); ++i)
    largest = std::max(largest, std::abs(p[i] - q[i]));
  return largest;
}

/// Square pulse of height 1 in a quiet record, its edges half a step wide of the samples.
Signal square_pulse(double step, double duration) {
  const double quiet = 0.05;
  return sampled(step, duration + 2 * quiet, [=](double time) {
    return time > quiet - step / 2 && time < quiet + duration - step / 2 ? 1.0 : 0.0;
  });
}

/// What both passes make of a square pulse when the sampling is far above the class: each edge leaves
/// 1 - exp(-s) cos(s) / 2 behind it, s = design frequency times time over sqrt 2 (docs/method/pulse_metric.md).
double square_pulse_peak(double duration) {
  double largest = 0;
  for (int i = 0; i <= 20000; ++i) {
    const double time = duration * i / 20000;
    const double rise = class_60_design * time / std::numbers::sqrt2;
    const double fall = class_60_design * (duration - time) / std::numbers::sqrt2;
    largest = std::max(largest, 1 - std::exp(-rise) * std::cos(rise) / 2 - std::exp(-fall) * std::cos(fall) / 2);
  }
  return largest;
}

/// Convolution of a pulse with the continuous kernel of both passes, by the trapezoidal rule.
double convolved(const std::function<double(double)>& pulse, double from, double to, double at) {
  constexpr int intervals = 200000;
  const double width = (to - from) / intervals;
  double sum = 0;
  for (int i = 0; i <= intervals; ++i) {
    const double time = from + i * width;
    const double lag = class_60_design * std::abs(time - at) / std::numbers::sqrt2;
    const double kernel =
        class_60_design / (2 * std::numbers::sqrt2) * std::exp(-lag) * (std::cos(lag) + std::sin(lag));
    sum += pulse(time) * kernel * (i == 0 || i == intervals ? 0.5 : 1.0);
  }
  return sum * width;
}

} // namespace

TEST_CASE("class 60 at 10 kHz has the coefficients of SAE J211-1 appendix C") {
  // The formula of appendix C as transcribed in a public implementation (read); the digits worked out by hand
  // (derived).
  const FilterCoefficients c = filter_coefficients(ChannelClass::class_60, 1e-4);
  CHECK(c.a0 == Approx(0.0014523675).margin(5e-11));
  CHECK(c.a1 == Approx(2 * c.a0).epsilon(1e-15));
  CHECK(c.a2 == Approx(c.a0).epsilon(1e-15));
  CHECK(c.b1 == Approx(1.8893432242).margin(5e-11));
  CHECK(c.b2 == Approx(-0.8951526941).margin(5e-11));
}

TEST_CASE("the factor 2.0775 puts both passes together at half power at the class over 0.6") {
  // (sqrt 2 - 1)^(-1/4) / 0.6, arithmetic; the standard prints five digits.
  CHECK(std::pow(std::numbers::sqrt2 - 1, -0.25) / 0.6 == Approx(2.0775).margin(5e-5));
}

TEST_CASE("a steady value passes every class unchanged") {
  const Signal steady{1e-5, std::vector<double>(400, 27.5)};
  for (const ChannelClass channel_class :
       {ChannelClass::class_60, ChannelClass::class_180, ChannelClass::class_600, ChannelClass::class_1000})
    CHECK(largest_difference(filtered(steady, channel_class).values, steady.values) == 0);
}

TEST_CASE("a 100 Hz sine leaves class 60 with 0.7073 of its size and in phase") {
  const Signal sine = sampled(1e-4, 0.5, [](double time) { return std::sin(2 * pi * 100 * time); });
  const Signal result = filtered(sine, ChannelClass::class_60);
  // Far from the ends the result is the sine times the gain of both passes; 100 samples are one period.
  double in_phase = 0;
  double out_of_phase = 0;
  for (std::size_t i = 2000; i < 3000; ++i) {
    const double angle = 2 * pi * 100 * static_cast<double>(i) * 1e-4;
    in_phase += result.values[i] * std::sin(angle) / 500;
    out_of_phase += result.values[i] * std::cos(angle) / 500;
  }
  CHECK(in_phase == Approx(0.7073).margin(5e-5)); // derived from the appendix C formula
  CHECK(std::abs(out_of_phase) < 1e-9);

  // Second way: the bilinear transform of a two-pole Butterworth filter, squared for two passes.
  const double ratio = std::tan(pi * 100 * 1e-4) / std::tan(class_60_design * 1e-4 / 2);
  CHECK(in_phase == Approx(1 / (1 + std::pow(ratio, 4))).epsilon(1e-9));
}

TEST_CASE("a 40 g half-sine of 20 ms keeps 39.97 g of its peak in class 60") {
  const auto half_sine = [](double time) {
    return time > 0.05 && time < 0.07 ? 40 * std::sin(pi * (time - 0.05) / 0.02) : 0.0;
  };
  const Signal signal = sampled(1e-4, 0.12, half_sine);
  const double filtered_peak = peak(filtered(signal, ChannelClass::class_60));
  CHECK(filtered_peak == Approx(39.97).margin(0.005)); // derived
  // Second way: the continuous kernel of both passes. 10 kHz is coarse to about one part in 1e4 of it.
  CHECK(filtered_peak == Approx(convolved(half_sine, 0.05, 0.07, 0.06)).epsilon(1e-4));
}

TEST_CASE("the filter overshoots a square pulse as its continuous form says") {
  const auto [duration, printed] = GENERATE(std::pair{0.100, 0.034}, std::pair{0.040, 0.034}, std::pair{0.020, 0.034},
                                            std::pair{0.010, 0.058}, std::pair{0.008, 0.066});
  CAPTURE(duration);
  const double overshoot = peak(filtered(square_pulse(1e-5, duration), ChannelClass::class_60)) - 1;
  CHECK(overshoot == Approx(printed).margin(5e-4)); // derived, two printed digits
  CHECK(overshoot == Approx(square_pulse_peak(duration) - 1).margin(2e-5));
}

TEST_CASE("a step that lasts to the end of the record does not droop there") {
  const Signal step = sampled(1e-4, 0.1, [](double time) { return time < 0.03 ? 0.0 : 25.0; });
  const Signal result = filtered(step, ChannelClass::class_60);
  for (std::size_t i = 901; i < result.values.size(); ++i)
    CHECK(result.values[i] == Approx(25).epsilon(1e-9));
}

TEST_CASE("the ends of a record behave as if the end values went on for long") {
  const auto rough = [](double time) { return 3 + 20 * std::sin(700 * time) + 900 * time; };
  const Signal record = sampled(1e-4, 0.06, rough);
  constexpr std::size_t padding = 2000; // 200 ms, twenty times what the standard asks
  Signal padded{record.step, std::vector<double>(padding, record.values.front())};
  padded.values.insert(padded.values.end(), record.values.begin(), record.values.end());
  padded.values.insert(padded.values.end(), padding, record.values.back());
  const Signal whole = filtered(padded, ChannelClass::class_60);
  const std::vector<double> middle(whole.values.begin() + padding, whole.values.end() - padding);
  CHECK(largest_difference(filtered(record, ChannelClass::class_60).values, middle) < 1e-10);
}

TEST_CASE("a record read backward gives the filtered record read backward") {
  const auto channel_class = GENERATE(ChannelClass::class_60, ChannelClass::class_180, ChannelClass::class_600);
  const Signal record =
      sampled(5e-5, 0.08, [](double time) { return 40 * std::exp(-30 * time) * std::sin(260 * time) + 7; });
  Signal backward = record;
  std::reverse(backward.values.begin(), backward.values.end());
  Signal result = filtered(backward, channel_class);
  std::reverse(result.values.begin(), result.values.end());
  CHECK(largest_difference(result.values, filtered(record, channel_class).values) < 1e-10);
}

TEST_CASE("the filtered sum of two signals is the sum of the filtered signals") {
  const Signal p = sampled(1e-4, 0.05, [](double time) { return time < 0.02 ? 30.0 : 12.0; });
  const Signal q = sampled(1e-4, 0.05, [](double time) { return 9 * std::cos(400 * time); });
  Signal both = p;
  for (std::size_t i = 0; i < both.values.size(); ++i)
    both.values[i] = 2 * p.values[i] - 0.5 * q.values[i];
  const Signal filtered_p = filtered(p, ChannelClass::class_180);
  const Signal filtered_q = filtered(q, ChannelClass::class_180);
  std::vector<double> expected;
  for (std::size_t i = 0; i < both.values.size(); ++i)
    expected.push_back(2 * filtered_p.values[i] - 0.5 * filtered_q.values[i]);
  CHECK(largest_difference(filtered(both, ChannelClass::class_180).values, expected) < 1e-11);
}

TEST_CASE("a filter keeps the area under a pulse that starts and ends in quiet") {
  const Signal pulse = sampled(1e-4, 0.3, [](double time) { return time > 0.1 && time < 0.17 ? 20.0 : 0.0; });
  CHECK(mean_over_time(filtered(pulse, ChannelClass::class_60)) == Approx(mean_over_time(pulse)).epsilon(1e-10));
}

TEST_CASE("a sampling rate below ten times the class is refused with both rates") {
  CHECK_NOTHROW(filter_coefficients(ChannelClass::class_1000, 1e-4));
  CHECK_THROWS_MATCHES(
      filtered(Signal{1e-4 * 1.01, {0, 1}}, ChannelClass::class_1000), OutOfDomain,
      Catch::Matchers::Message("a signal filtered with channel class 1000 needs a sampling rate of at "
                               "least 10000 Hz, but has 9900.99 Hz: sample it at least every 0.1 ms"));
  CHECK_THROWS_AS(filtered(Signal{0, {0, 1}}, ChannelClass::class_60), OutOfDomain);
}

TEST_CASE("a record without samples stays one and a single sample keeps its value") {
  CHECK(filtered(Signal{1e-4, {}}, ChannelClass::class_60).values.empty());
  CHECK(filtered(Signal{1e-4, {4.5}}, ChannelClass::class_60).values == std::vector<double>{4.5});
}
