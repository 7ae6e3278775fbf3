#pragma once
#include "crushwright/filling.hpp"
#include "lattice_body/body_mesh.hpp"

namespace crushwright {

/// The lattice of a structure as one solid to be meshed or sampled, cut by skin and end plates. Holds what it needs
/// of the structure. @param with_skin  the skin belongs to the same solid
LatticeSolid drawn_lattice(const FilledStructure& filled, bool with_skin = false);

/// What the skin's inner face is measured from: the outer surface, drawn out at both ends, where no skin lies.
TriangleMesh cutting_surface(const FilledStructure& filled);

/// Metal and room by evenly spread samples, the same for any number of threads.
/// @param samples  in the box around the body, > 0
/// @throws OutOfDomain when no sample lies in the room, or a size leaves the range of the catalogue entry.
WallFill sampled_fill(const FilledStructure& filled, std::size_t samples);

} // namespace crushwright
