#pragma once
#include "crushwright/unit_cell.hpp"
#include "unit_cell/sample_grid.hpp"
#include "unit_cell/solid_body.hpp"

#include <vector>

namespace crushwright {

/// Where the metal of a cell is: signed distance to its boundary at the centres of an n × n × n grid over the cell
/// [cell edges], negative inside the metal, x fastest. Outside it is the distance up to 0.1, and more than 0.1
/// farther off. Inside it is the depth below the nearest of the parts that make the cell up, which falls short of the
/// depth where parts join; deeper than 0.1 only the sign is promised. The values are the same for any number of
/// threads.
///
/// The one door through which voxels, drawings and densities see a cell; works for every class but foam.
/// @throws OutOfDomain for a foam, n < 1, a size outside the cell's range, or a honeycomb, whose repeating box is no
///         cube: take the function below.
std::vector<float> boundary_distance(const UnitCell& cell, double size_ratio, int n);

/// The same over any grid of the box that repeats; `grid.box` must be repeating_box(cell), so that a honeycomb needs
/// the numbers of grid cells along x and y close to 1 : √3 for cubic voxels.
/// @return shape = (cells z, y, x), x fastest
std::vector<float> boundary_distance(const UnitCell& cell, double size_ratio, const SampleGrid& grid);

} // namespace crushwright
