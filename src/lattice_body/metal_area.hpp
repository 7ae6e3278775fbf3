#pragma once
#include "crushwright/unit_cell.hpp"

#include <optional>

namespace crushwright {

/// Area of the metal's surface over the volume that the cell takes up, times the cell's edge [-]: what powder clings
/// to and what a coating covers. Cuts through the metal at the cell's faces do not count.
///
/// Bars and sheets are grown alike about a skeleton, so it is twice the slope of the true density by size over edge;
/// plates, networks and honeycombs are meshed at two spacings and extrapolated (seconds), to about 1 %.
/// @param size_ratio  τ, inside the cell's range
/// @return  nothing for a foam, whose shape is not known, for a solid, and for foils whose mesh would take minutes
std::optional<double> metal_area(const UnitCell& cell, double size_ratio);

} // namespace crushwright
