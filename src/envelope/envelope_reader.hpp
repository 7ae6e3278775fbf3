#pragma once
#include "crushwright/envelope.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Reads `sections` and `parts` of a structure (docs/method/envelope.md, Reading).
///
/// @param structure  the structure's mapping; the caller has allowed both keys.
/// @throws InputError when the shape cannot be built; the message points at the key and says what to do.
Envelope read_envelope(const Mapping& structure);

} // namespace crushwright
