#pragma once
#include "crushwright/unit_cell.hpp"

#include <optional>

namespace crushwright {

/// Gibson-Ashby laws of a cell's class, on the true relative density; used when nothing better exists and shown
/// always. Absent for folding cells, which have no class law. Sources stand in each law; docs/method/scaling_law.md.
std::optional<PowerLaw> class_elastic_modulus(CellBehaviour behaviour);
std::optional<PowerLaw> class_plateau_stress(CellBehaviour behaviour);

/// 1 - 1.4 ρ̄, and 0.72 times that for the strain of greatest efficiency.
DensificationLaw class_locking_strain();
DensificationLaw class_efficiency_strain();

} // namespace crushwright
