#pragma once
#include "crushwright/crash_case.hpp"
#include "estimate/lattice_fill.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// What weighing or measuring a printed part implies for its lattice.
struct AsBuilt {
  double size_factor = 1;    ///< on the drawn strut or wall [-]
  double skin_thickness = 0; ///< measured, else as drawn [m]
  std::vector<std::string> notes;
};

/// The size of strut or wall that explains a weighed mass, or the measured size itself when one is given.
///
/// @param skin_density  of the skin's material [kg/m^3]; not used without a skin.
/// @param plate_mass    [kg].
/// @throws InputError at the case's line when no size in the catalogue entry's range explains the mass.
AsBuilt as_built(const CrashCase& crash_case, const StructureInput& input, const LatticeFill& drawn,
                 double drawn_skin_thickness, double skin_density, double plate_mass);

} // namespace crushwright
