#pragma once
#include "crushwright/estimate.hpp"
#include "estimate/ingredients.hpp"

namespace crushwright {

/// What an oblique force and breaking struts take from a lattice: the factors of the model, with their warnings.
void describe_weakening(const CrashCase& crash_case, const Ingredients& from, StructureModel& model);

} // namespace crushwright
