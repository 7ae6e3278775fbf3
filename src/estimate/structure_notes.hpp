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

/// Laws or rate factor of one metal, or the wider interval for one that states neither, with its warning.
MetalRate metal_rate(const BaseMaterial& material, const std::string& structure, std::vector<std::string>& warnings);

/// The structure's rate interval from those of its metals; needs the lattice's share of the force.
void describe_rate(const Ingredients& from, StructureModel& model);

void name_inversions(StructureModel& model);

} // namespace crushwright
