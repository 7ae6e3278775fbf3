#pragma once
#include "crushwright/pulse_metric.hpp"

namespace crushwright {

/// One pass of the channel-class filter,
/// y_n = a0 x_n + a1 x_(n-1) + a2 x_(n-2) + b1 y_(n-1) + b2 y_(n-2) (SAE J211-1, appendix C; all [-]).
struct FilterCoefficients {
  double a0 = 0;
  double a1 = 0;
  double a2 = 0;
  double b1 = 0;
  double b2 = 0;
};

/// @param step  sampling step [s], > 0, at most 1 / (10 class).
/// @throws OutOfDomain when the step is not positive or the sampling rate is below ten times the class.
FilterCoefficients filter_coefficients(ChannelClass channel_class, double step);

} // namespace crushwright
