#pragma once
#include "crushwright/envelope.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Reads `sections` or `surface`, and `parts`, of a structure (docs/method/envelope.md, Reading).
///
/// @param structure    the structure's mapping; the caller has allowed the three keys.
/// @param layer_count  of the computation: a surface is cut so that the middle of every layer is a cut.
/// @throws InputError when the shape cannot be built; the message points at the key and says what to do.
Envelope read_envelope(const Mapping& structure, int layer_count = 48);

} // namespace crushwright
