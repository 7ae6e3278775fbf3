#pragma once
#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

using CellPoint = std::array<double, 3>; ///< a point in cell edges; the cell is [0, 1)³ and repeats

/// The periodic surfaces that a sheet or skeletal cell can be built around, each by the first harmonics of the
/// minimal surface of the same name, x = 2π X / a: gyroid Σ sin x cos y; diamond sin x sin y sin z + Σ sin x cos y
/// cos z; primitive Σ cos x; I-WP 2 Σ cos x cos y - Σ cos 2x.
enum class SheetSurface { gyroid, diamond, primitive, iwp };

/// @throws OutOfDomain for a name that is not one of "gyroid", "diamond", "primitive", "iwp".
SheetSurface sheet_surface(std::string_view name);

/// The names that sheet_surface knows.
std::vector<std::string> sheet_surface_names();

/// f at a point [-].
double surface_value(SheetSurface surface, const CellPoint& point);
/// The same from the sines and cosines of 2π X / a.
double surface_value(SheetSurface surface, const std::array<double, 3>& sines, const std::array<double, 3>& cosines);

/// No gradient of f is longer than this [1/edge].
double steepest_slope(SheetSurface surface);

/// Distance from a point to the surface f = level by Newton's method on its foot, to 1e-12; where that does not
/// settle, by projecting on tangent planes, to 1e-8 [cell edges]. Never too short; beyond the surface's own radii of
/// curvature it may be too long.
double distance_to_level(SheetSurface surface, double level, const CellPoint& point);

} // namespace crushwright
