#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <string>
#include <vector>

namespace crushwright {

/// The rim of one hole.
struct OpenRim {
  std::size_t edges = 0;
  double length = 0;
  std::array<double, 3> middle{}; ///< of the rim
};

/// The longest first; empty for a closed mesh. Rims that touch in a point count as one.
std::vector<OpenRim> open_rims(const TriangleMesh& mesh);

/// "the surface has 2 holes: ...", with the first five.
std::string words_on(const std::vector<OpenRim>& rims);

} // namespace crushwright
