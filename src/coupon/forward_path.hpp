#pragma once
#include "crushwright/coupon_series.hpp"

#include "coupon/test_curve.hpp"

namespace crushwright {

/// The way forward through a record: strain rises from sample to sample.
struct ForwardPath {
  std::vector<TestPoint> samples;
  std::vector<UnloadLoop> loops;
  std::vector<std::string> remarks;
};

/// docs/method/conditioning.md, steps 4 and 5. `record` is for messages.
/// @param level  as stress_level() [Pa], > 0.
/// @throws InputError for a loop that does not close, and where strain falls without the load.
ForwardPath forward_path(const TestRecord& record, const std::vector<TestPoint>& samples, double level);

/// Secant of the loop that leaves at `leaves` and is back at or before `returns`, by step "Elastic gradient of a
/// loop" [Pa]; 0 when its stresses lie too close together.
double loop_gradient(const std::vector<TestPoint>& samples, std::size_t leaves, std::size_t returns, double level);

} // namespace crushwright
