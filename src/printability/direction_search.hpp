#pragma once
#include "crushwright/printability.hpp"

#include <functional>
#include <vector>

namespace crushwright {

/// Directions by small whole numbers, simplest first: axes, face and body diagonals, then the others with numbers up
/// to 3. As many one way as the other.
std::vector<BuildDirection> simple_directions();

using TroubleOf = std::function<DirectionTrouble(const BuildDirection&)>;

/// The least troublesome of the simple directions, then better ones in its neighbourhood down to one degree.
BestDirection least_trouble(const TroubleOf& trouble_of);

/// Fewer than as many points that reach nearly as far in every direction: the farthest of 1,500 directions each, so
/// that an extent is short by at most 0.1 %. Small sets are returned as they are.
std::vector<std::array<double, 3>> outermost(const std::vector<std::array<double, 3>>& points);

} // namespace crushwright
