#pragma once
#include "crushwright/crash_case.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Reads the `structures` block: each structure, and its twin where `mirrored_as` asks for one.
std::vector<StructureInput> read_structures(const Mapping& root);

} // namespace crushwright
