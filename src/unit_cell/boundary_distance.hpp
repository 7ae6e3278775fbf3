#pragma once
#include "crushwright/unit_cell.hpp"

#include <vector>

namespace crushwright {

/// Where the metal of a cell is: signed distance to its boundary at the centres of an n × n × n grid over the cell
/// [cell edges], negative inside the metal, x fastest. Within 0.1 of the boundary it is the distance; farther off
/// only the sign is promised.
///
/// The one door through which voxels, drawings and densities see a cell; works for every class but foam.
/// @throws OutOfDomain for a foam, n < 1 or a size outside the cell's range.
std::vector<float> boundary_distance(const UnitCell& cell, double size_ratio, int n);

} // namespace crushwright
