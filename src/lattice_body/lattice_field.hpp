#pragma once
#include "crushwright/lattice_body.hpp"
#include "crushwright/unit_cell.hpp"
#include "surface/field_samples.hpp"

#include <array>

namespace crushwright {

/// The metal of a lattice that fills all space, as a field: negative inside, near the boundary the distance to it,
/// farther off never more than the distance [m]. Points in the structure's own frame [m]. It copies what it needs.
///
/// A graded size is taken at the point asked for; it has to change slowly, by less than 0.2 m over 1 m.
/// Asking throws OutOfDomain where the size is outside the cell's range.
/// @throws OutOfDomain for a cell without a shape to be meshed (foam, solid), an edge that is not over 0, or axes
/// that are
///         not three unit vectors at right angles in right-handed order, to 1e-6.
FieldAt lattice_field(const UnitCell& cell, const LatticePlacement& placement, const SizeAt& size);

/// A point in the cell's own axes, in cell edges from the placement's origin.
std::array<double, 3> in_cell_edges(const LatticePlacement& placement, const std::array<double, 3>& point);

} // namespace crushwright
