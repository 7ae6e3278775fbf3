#pragma once
#include "crushwright/estimate.hpp"

#include <string>

namespace crushwright {

/// What of the column, the service loads and fatigue does not stand in the verdict: no limit on it, or nothing stated
/// to check; sentences to stand by the verdict. Empty when all of it does.
std::string beside_the_verdict(const Estimate& estimate);

/// The column checks as a table for the terminal; empty where no beam was built.
std::string column_text(const Estimate& estimate);

/// "left, right": mirrors of an impact that stand alike are named together; the place of the first of each.
struct AlikeColumns {
  std::string structures;
  std::size_t first = 0; ///< index into ImpactOutcome::mapped
};
std::vector<AlikeColumns> alike_columns(const ImpactOutcome& impact);

} // namespace crushwright
