#pragma once
#include "crushwright/column_check.hpp"

#include <string>

namespace crushwright {

/// Bending stress over p (b/t)^2 of an endless plate on a square grid of points b apart: 6 × 0.2127, the moment over
/// a square support a tenth of b wide, Poisson's ratio 0.3. A plate held along its four edges has 0.3078.
constexpr double plate_on_points = 6 * 0.2127;

/// The same of a strip of width b clamped along both edges: p b^2 / 12 over t^2 / 6.
constexpr double clamped_strip = 0.5;

/// Wall of the skin: as stated, else that of a box of the section's extents with the skin's area [m]; 0 without a
/// skin.
double skin_thickness_of(const BeamSection& section);

/// Bending stress of the skin between what holds it from behind [Pa]: the lattice's nodes, a cell edge apart; without
/// a lattice the edges of its face.
double panel_stress(const BeamSection& section, double pressure, const std::string& side, double cell_edge);

} // namespace crushwright
