#pragma once
#include "unit_cell/level_surface.hpp"
#include "unit_cell/sample_grid.hpp"

namespace crushwright {

/// Visits samples of an n × n × n grid by their distance to the surface f = level, those of one layer along z and
/// whatever the surface's symmetry makes equal to them; over all n layers every sample comes once. All four surfaces
/// look alike along x, y and z, and at level 0 from both ends of each.
///
/// @param reach        samples farther off than this are left out [cell edges]
/// @param signed_side  false: distances are positive, and far samples are left out on both sides. true: negative
/// where
///                     f > level, and every sample there is visited; beyond `reach` with -reach.
void visit_near_surface(SheetSurface surface, double level, bool signed_side, int n, double reach, int layer,
                        const SampleVisitor& visitor);

} // namespace crushwright
