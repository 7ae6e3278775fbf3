#pragma once
#include "crushwright/estimate.hpp"
#include "estimate/ingredients.hpp"

namespace crushwright {

/// Masses of layers and tip, the attachment, and the structure as a cantilever for the column checks.
///
/// The beam is built where reports show it or a limit of the case looks at it: its lattice moduli take a while.
/// @param plate_density  of the end plates [kg/m^3]; 0 without.   @param for_reports  false in a search.
void describe_column(const CrashCase& crash_case, const Ingredients& from, double plate_density, bool for_reports,
                     StructureModel& model);

/// Frequency, service loads and fatigue of a structure whose beam is there; nothing where it is not.
void describe_service(const CrashCase& crash_case, StructureModel& model);

/// Turns a copy of the original's beam into its mirror's.
void mirror_column(StructureModel& twin);

} // namespace crushwright
