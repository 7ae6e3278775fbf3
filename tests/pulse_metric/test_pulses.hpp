#pragma once
#include "crushwright/pulse_metric.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <numbers>
#include <random>

/// Pulses for the tests of what is read from them.
namespace test_pulses {

constexpr double pi = std::numbers::pi;
constexpr double g = 9.80665;

inline crushwright::Signal sampled(double step, double time, const std::function<double(double)>& value) {
  crushwright::Signal signal{step, {}};
  const auto count = static_cast<std::size_t>(std::lround(time / step)) + 1;
  for (std::size_t i = 0; i < count; ++i)
    signal.values.push_back(value(static_cast<double>(i) * step));
  return signal;
}

inline crushwright::Signal constant(double value, double time, double step) {
  return sampled(step, time, [=](double) { return value; });
}

/// Between 0 and 400 m/s^2, from 0.
inline crushwright::Signal random_pulse(unsigned seed, std::size_t count, double step) {
  std::mt19937 generator(seed);
  std::uniform_real_distribution<double> value(0, 400);
  crushwright::Signal signal{step, {0}};
  while (signal.values.size() < count)
    signal.values.push_back(value(generator));
  return signal;
}

/// The same polyline with `parts` steps for one.
inline crushwright::Signal resampled(const crushwright::Signal& signal, int parts) {
  crushwright::Signal fine{signal.step / parts, {}};
  for (std::size_t i = 0; i + 1 < signal.values.size(); ++i)
    for (int k = 0; k < parts; ++k)
      fine.values.push_back(signal.values[i] + (signal.values[i + 1] - signal.values[i]) * k / parts);
  fine.values.push_back(signal.values.back());
  return fine;
}

/// The polyline at a time; zero outside of it.
inline double value_or_zero(const crushwright::Signal& signal, double time) {
  const double place = time / signal.step;
  const auto last = static_cast<double>(signal.values.size() - 1);
  if (place < 0 || place > last * (1 + 1e-12))
    return 0;
  const auto i = std::min(static_cast<std::size_t>(place), signal.values.size() - 2);
  return signal.values[i] + (place - static_cast<double>(i)) * (signal.values[i + 1] - signal.values[i]);
}

} // namespace test_pulses
