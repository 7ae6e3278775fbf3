#include "pulse_metric/channel_class_filter.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace crushwright {

namespace {

struct Matrix2 {
  double xx = 0, xy = 0, yx = 0, yy = 0;
};

Matrix2 product(const Matrix2& p, const Matrix2& q) {
  return {p.xx * q.xx + p.xy * q.yx, p.xx * q.xy + p.xy * q.yy, p.yx * q.xx + p.yy * q.yx, p.yx * q.xy + p.yy * q.yy};
}

Matrix2 sum(const Matrix2& p, const Matrix2& q) {
  return {p.xx + q.xx, p.xy + q.xy, p.yx + q.yx, p.yy + q.yy};
}

double largest_entry(const Matrix2& m) {
  return std::max(std::max(std::abs(m.xx), std::abs(m.xy)), std::max(std::abs(m.yx), std::abs(m.yy)));
}

struct State {
  double first = 0;
  double second = 0;
};

/// One pass as z <- A z + B x, y = a0 x + z.first: per sample only one product and one sum wait for the sample
/// before.
struct Pass {
  double a0 = 0, b1 = 0, b2 = 0;
  double input_first = 0, input_second = 0; // B

  explicit Pass(const FilterCoefficients& c)
      : a0(c.a0), b1(c.b1), b2(c.b2), input_first(c.a1 + c.b1 * c.a0), input_second(c.a2 + c.b2 * c.a0) {}

  double next(State& state, double input) const {
    const double output = a0 * input + state.first;
    const double first = (input_first * input + state.second) + b1 * state.first;
    state.second = input_second * input + b2 * state.first;
    state.first = first;
    return output;
  }
};

/// W with z = W s: from the forward pass's state at the last sample to the backward pass's, the last value going on
/// for ever. The series is summed by doubling until a power of A no longer counts.
Matrix2 turning_matrix(const Pass& pass) {
  Matrix2 power{pass.b1, 1, pass.b2, 0};
  Matrix2 total{pass.input_first, 0, pass.input_second, 0};
  constexpr int most_doublings = 60; // far more than the highest sampling rate that means anything needs
  for (int i = 0; i < most_doublings && largest_entry(power) > 1e-18; ++i) {
    total = sum(total, product(product(power, total), power));
    power = product(power, power);
  }
  return total;
}

} // namespace

FilterCoefficients filter_coefficients(ChannelClass channel_class, double step) {
  const double frequency_class = static_cast<double>(static_cast<int>(channel_class));
  if (!(step > 0) || !std::isfinite(step))
    throw OutOfDomain(fmt::format("the sampling step of a signal must be positive, but is {} s", step));
  constexpr double rounding = 1e-9; // 1 / step of an exact ten times may fall short in the last digit
  if (1 / step < 10 * frequency_class * (1 - rounding))
    throw OutOfDomain(
        fmt::format("a signal filtered with channel class {:g} needs a sampling rate of at least {:g} Hz, "
                    "but has {:g} Hz: sample it at least every {:g} ms",
                    frequency_class, 10 * frequency_class, 1 / step, 100 / frequency_class));
  constexpr double root2 = std::numbers::sqrt2;
  const double design = 2 * std::numbers::pi * frequency_class * 2.0775;
  const double warped = std::tan(design * step / 2);
  const double warped2 = warped * warped;
  const double divisor = 1 + root2 * warped + warped2;
  const double a0 = warped2 / divisor;
  return {a0, 2 * a0, a0, -2 * (warped2 - 1) / divisor, (-1 + root2 * warped - warped2) / divisor};
}

Signal filtered(const Signal& signal, ChannelClass channel_class) {
  const Pass pass(filter_coefficients(channel_class, signal.step));
  Signal result = signal;
  if (result.values.empty())
    return result;

  // Forward, measured from the first value: a signal that has always been there starts from rest.
  const double first = signal.values.front();
  State state;
  for (double& value : result.values)
    value = pass.next(state, value - first);

  // Backward, measured from the last value. The state of the forward pass at rest on the last value is taken off, so
  // that what is left is its free motion.
  const double rise = signal.values.back() - first;
  const State at_rest{rise - pass.a0 * rise, pass.input_second * rise + pass.b2 * (rise - pass.a0 * rise)};
  const State free{state.first - at_rest.first, state.second - at_rest.second};
  const Matrix2 turn = turning_matrix(pass);
  state = {turn.xx * free.first + turn.xy * free.second, turn.yx * free.first + turn.yy * free.second};
  const double last = signal.values.back();
  for (auto value = result.values.rbegin(); value != result.values.rend(); ++value)
    *value = pass.next(state, *value - rise) + last;
  return result;
}

} // namespace crushwright
