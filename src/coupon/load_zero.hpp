#pragma once
#include "coupon/test_curve.hpp"

namespace crushwright {

/// The stretch before contact in which the load says where its zero is.
struct QuietStretch {
  std::size_t count = 0; ///< points from the start; 0: there is none
  double zero = 0;       ///< mean stress of its first half [Pa]
  double noise = 0;      ///< standard deviation there [Pa]
  bool moving = false;   ///< the displacement goes on: nothing is touched yet, so that the load must be zero
};

/// docs/method/conditioning.md, step 2.
QuietStretch quiet_stretch(const std::vector<TestPoint>& samples, double level);

/// Takes the zero off every sample and says so when it is more than the noise of its own mean.
QuietStretch take_zero_off(TestCurve& curve);

} // namespace crushwright
