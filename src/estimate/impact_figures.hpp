#pragma once
#include "estimate/impact_runs.hpp"

namespace crushwright {

/// Adds to the impacts of a judged set what reports show beside the limits, all at nominal: yaw, column checks with
/// their maps, the run with the structures' own inertia, what is left after the hit.
void add_impact_figures(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                        const ScatterSet& scatter, JudgedSet& judged);

} // namespace crushwright
