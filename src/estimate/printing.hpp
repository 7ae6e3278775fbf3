#pragma once
#include "crushwright/estimate.hpp"
#include "estimate/ingredients.hpp"

namespace crushwright {

/// Printability of a structure in the case's build direction, and the joints of its pieces in its mass. Nothing
/// without a block `printing`.
/// @param plate_density  of the end plates' material [kg/m^3]; 0 without plates
void describe_printing(const CrashCase& crash_case, const Ingredients& from, double plate_density,
                       StructureModel& model);

/// The least troublesome direction and, as warnings, the machine's limits that are not kept: for an estimate, not for
/// a search. After describe_printing.
void advise_on_printing(const CrashCase& crash_case, const Ingredients& from, double plate_density,
                        StructureModel& model);

} // namespace crushwright
