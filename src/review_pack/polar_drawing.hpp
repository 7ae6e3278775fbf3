#pragma once
#include "crushwright/stiffness_matrix.hpp"

#include <optional>
#include <string>

namespace crushwright {

/// Young's modulus against direction in the three planes of the cell's axes, side by side to one scale, as inline
/// SVG: the distance from the middle is the modulus.
///
/// @param main     drawn solid [Pa] or over a modulus
/// @param other    drawn dashed, same unit; absent for one line
/// @param unit     of both, in words for the rings, with its factor: shown value = factor × modulus
std::string polar_drawing(const StiffnessMatrix& main, const std::optional<StiffnessMatrix>& other, double factor,
                          const std::string& unit);

} // namespace crushwright
