#pragma once
#include "lattice_body/body_mesh.hpp"

namespace crushwright {

/// The metal of a body as one field [m]: the lattice inside the inset surface, and the skin where asked for.
FieldAt body_field(const LatticeSolid& solid);

} // namespace crushwright
