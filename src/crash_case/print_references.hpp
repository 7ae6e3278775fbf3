#pragma once
#include "crushwright/crash_case.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Limits and objectives that need more of the block `printing` than the case states.
/// @throws InputError at the limit's quantity or the objective.
void check_print_references(const Mapping& root, const CrashCase& crash_case);

} // namespace crushwright
