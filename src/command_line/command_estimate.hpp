#pragma once
#include "command_line/command_input.hpp"
#include "command_line/exit_code.hpp"

namespace crushwright {

/// `crushwright estimate`: the verdict on a case, and its review pack.
/// @return pass, or not_passed for fail and open.  @throws InputError.
ExitCode command_estimate(const CommandOptions& options);

} // namespace crushwright
