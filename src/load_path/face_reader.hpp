#pragma once
#include "crushwright/load_path.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Reads the block `face` of an impact (docs/method/load_path.md).
/// @throws InputError at the key: what the shape does not have, an overlap that the face is too narrow for, a block
/// that stands out of the face.
FaceInput read_face(Mapping face);

} // namespace crushwright
