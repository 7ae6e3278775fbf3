#pragma once
#include "crushwright/crash_case.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Reads the `impacts` block.
std::vector<ImpactInput> read_impacts(const Mapping& root, const std::vector<StructureInput>& structures);

} // namespace crushwright
