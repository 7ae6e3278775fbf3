#pragma once
#include "crushwright/estimate.hpp"
#include "estimate/ingredients.hpp"

#include <string>
#include <vector>

namespace crushwright {

// What a reader of a structure must know beside its curve: the evidence of its cells, and everything that would
// flatter the verdict if it went unsaid. Each adds to the model, its warnings included.

/// Cell properties with their evidence at tip, middle and root.
void describe_cells(const CrashCase& crash_case, const Ingredients& from, StructureModel& model);

/// Cell edge, density, smallest strut or wall, cells across.
void describe_lattice(const Ingredients& from, StructureModel& model);

/// What the folding laws leave out of this skin.
void describe_skin(const Ingredients& from, StructureModel& model);

/// Rate factors of the material, or the wider ones for a material that states none.
void describe_rate(const BaseMaterial& material, StructureModel& model);

void name_inversions(StructureModel& model);

/// Strength factor at the case's service temperature [-]; 1 with a warning where a hot material states none.
double temperature_factor_of(const CrashCase& crash_case, const BaseMaterial& material,
                             std::vector<std::string>& warnings);

} // namespace crushwright
