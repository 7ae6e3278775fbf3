#pragma once
#include "coupon/test_curve.hpp"

#include <optional>

namespace crushwright {

/// The steepest straight part of the rise.
struct QuasiElasticLine {
  double slope = 0;       ///< [Pa]
  double foot = 0;        ///< strain where it meets zero stress, not left of what the first sample allows [-]
  double from_strain = 0; ///< where it begins [-]
  std::size_t first = 0;  ///< first sample at or after that
};

/// docs/method/conditioning.md, step 6.
/// @param samples  strain rising.  @param level  as stress_level() [Pa], > 0.
/// @return absent when the samples start above 0.7 of the level, or never get there.
std::optional<QuasiElasticLine> quasi_elastic_line(const std::vector<TestPoint>& samples, double level);

} // namespace crushwright
