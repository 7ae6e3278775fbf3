#pragma once
#include "command_line/command_input.hpp"
#include "command_line/exit_code.hpp"

namespace crushwright {

/// `crushwright size`: the lightest strut or wall, and cell edge, that passes the case.
/// @return pass when there is one, else not_passed.  @throws InputError.
ExitCode command_size(const CommandOptions& options);

} // namespace crushwright
