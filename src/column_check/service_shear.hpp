#pragma once
#include "crushwright/column_check.hpp"

namespace crushwright {

/// Of a solid rectangle; a lattice's own is not known.
constexpr double lattice_shear_coefficient = 5.0 / 6;

/// Cowper's coefficient of a thin-walled box of one thickness with the extents of the section [-] [cowper1966shear].
/// @param axis  about_vertical for shear along y.   @return 0 without a skin.
double skin_shear_coefficient(const BeamSection& section, Bending axis);

} // namespace crushwright
