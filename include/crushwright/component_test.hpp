#pragma once
#include "crushwright/correlation.hpp"
#include "crushwright/estimate.hpp"
#include "crushwright/test_record.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// A crush test of one whole structure beside its prediction.
struct ComponentComparison {
  std::string structure;
  std::string specimen;
  Correlation correlation;   ///< nominal curve against the test: force [N] over crush [m]
  SampledCurve weak, strong; ///< predicted sides of the deciding scatter set at the same places, smoothed alike
  double share_inside = 0;   ///< of the crush, at which the test lies between weak and strong [-]
  double share_below = 0;    ///< of the crush, at which it lies under the weak side [-]
  double share_above = 0;    ///< over the strong side [-]
  std::vector<std::string> remarks; ///< what was handled in the record, with lines
};

/// The record's way forward (crush that rises; what goes back is left out and told) against the structure's predicted
/// crush curves; docs/method/correlation.md.
///
/// @param record        force over displacement, quasi-static: no rate factor is taken off.
/// @param filter_width  moving mean over crush [m], for all curves alike; absent: none.
/// @throws InputError for an unknown structure, a record of stress and strain, or too few points; OutOfDomain as
///         correlate().
ComponentComparison compared_component(const Estimate& estimate, const std::string& structure,
                                       const TestRecord& record, std::optional<double> filter_width);

} // namespace crushwright
