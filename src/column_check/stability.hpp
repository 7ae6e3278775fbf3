#pragma once
#include "crushwright/column_check.hpp"

#include <cstddef>
#include <vector>

namespace crushwright {

/// Elastic buckling force of what stands between the front of section `first` and the root, with shear [N].
///
/// @param column   sections at the layers' middles, then at the root.
/// @param heights  of the layers [m]; shape = (number of sections - 1).
/// @param first    first section that stands; below the number of layers.
double buckling_force(const BeamColumn& column, const std::vector<double>& heights, std::size_t first, Bending axis);

/// Force at which what is crushed, standing as a rigid piece on the crush itself, turns over [N]:
/// tangent × (radius of gyration)² / length.
/// @param tangent  slope of force over crush [N/m].   @param gyration  radius of gyration of the crush stress [m].
/// @param length   of what is crushed, as it is now [m], > 0.
double tilting_force(double tangent, double gyration, double length);

} // namespace crushwright
