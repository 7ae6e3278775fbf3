#pragma once
#include "crushwright/column_check.hpp"
#include "yaml_input/mapping.hpp"

#include <optional>

namespace crushwright {

/// Reads the key `bolts` of a structure's `attachment` (allow the key); absent gives none.
/// @throws InputError at the key: no places or both kinds of them, bolts in one row or at one place.
std::optional<BoltPattern> read_bolts(const Mapping& attachment);

} // namespace crushwright
