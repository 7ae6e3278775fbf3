#pragma once
#include "crushwright/printability.hpp"
#include "yaml_input/mapping.hpp"

#include <optional>

namespace crushwright {

/// The block `printing` of a case; absent when the case has none. docs/case_format.md
/// @throws InputError
std::optional<PrintingInput> read_printing(const Mapping& root);

} // namespace crushwright
