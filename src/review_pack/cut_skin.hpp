#pragma once
#include "review_pack/sight_grid.hpp"

namespace crushwright {

/// Marks as cut skin every ray whose point on the cut lies inside the outer surface and no farther from it than the
/// skin's thickness, measured in space; at least one pixel thick.
/// @param thickness  [m], > 0.   @param cut  place of the plane along `toward` [m].
void lay_cut_skin(SightGrid& grid, const TriangleMesh& surface, double thickness, const CellView& view,
                  const RasterFrame& frame, double cut);

} // namespace crushwright
