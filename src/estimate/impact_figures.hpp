#pragma once
#include "estimate/impact_runs.hpp"

namespace crushwright {

/// Adds to an impact that ran what reports show beside the limits, all at nominal: yaw, column checks with their
/// maps, the run with the structures' own inertia, what is left after the hit, strain rates.
/// @param nominal  the structures as this impact's runs had them, at nominal.
void add_impact_figures(const CrashCase& crash_case, const ImpactInput& impact,
                        const std::vector<StructureModel>& structures, const ImpactSetup& setup,
                        const SettledStructures& nominal, ImpactOutcome& outcome);

/// judge_case of the set that decides, with these figures in its impacts.
JudgedSet judge_with_figures(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                             const ScatterSet& scatter);

} // namespace crushwright
