#pragma once
#include "crushwright/estimate.hpp"
#include "result_file/json_text.hpp"

namespace crushwright {

/// An impact: bodies, face and contacts, runs on each side, more energy, what stands in series, column checks, yaw,
/// the resolved run, energy ledger, sampled nominal histories.
Json impact_json(const ImpactOutcome& impact);

} // namespace crushwright
