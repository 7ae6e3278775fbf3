#pragma once
#include "command_line/command_input.hpp"
#include "command_line/exit_code.hpp"

namespace crushwright {

/// `crushwright compare`: cells, materials and relative densities on one case, beside designs without a lattice.
/// @return pass when one of them passes, else not_passed.  @throws InputError.
ExitCode command_compare(const CommandOptions& options);

} // namespace crushwright
