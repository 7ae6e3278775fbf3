#pragma once
#include "crushwright/estimate.hpp"
#include "result_file/json_text.hpp"

namespace crushwright {

/// A structure as a beam: frequency, service loads, fatigue.
Json column_json(const StructureModel& structure);

/// How one structure stands in an impact, by its place in ImpactOutcome::mapped.
Json column_state_json(const ImpactOutcome& impact, std::size_t index);

} // namespace crushwright
