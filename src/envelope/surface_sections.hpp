#pragma once
#include "crushwright/envelope.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// Sections of a closed surface at the ends, at the border of every layer and in its middle.
/// @param mesh  in the structure's frame [m]: from x = 0 to the length
/// @return shape = (2 layers + 1); the sections of both ends are cut a millionth of the length inside them, so that a
/// tip that comes to a point has one too.
/// @throws OutOfDomain when the surface has no section somewhere between its ends: it is in two pieces.
std::vector<Section> surface_sections(const TriangleMesh& mesh, int layer_count);

/// Sentences on cuts with several outlines or with holes, and on what the skin's law then takes them for.
std::vector<std::string> remarks_on(const std::vector<Section>& sections);

} // namespace crushwright
