#pragma once
#include "crushwright/load_path.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Reads the block `face` of an impact (docs/method/load_path.md).
/// @throws InputError at the key: what the shape does not have, an overlap that the face is too narrow for, a block
/// that stands out of the face.
FaceInput read_face(Mapping face);

/// A value that nothing takes the ends of: refuses a spread at the key.
Quantity without_spread(const Mapping& holder, std::string_view key, Dimension dimension, const Bounds& bounds);

/// A value whose ends are taken, but no coefficient of variation.
Quantity with_ends(const Mapping& holder, std::string_view key, Dimension dimension, const Bounds& bounds);

} // namespace crushwright
