#pragma once
#include "command_line/command_input.hpp"
#include "command_line/exit_code.hpp"

#include <optional>
#include <string>

namespace crushwright {

/// What the user wrote behind `correlate`; values as written.
struct CorrelateOptions {
  std::string data_file;
  std::string structure;
  std::optional<std::string> filter; ///< width of a moving mean over crush
};

/// Sets a crush test of a whole structure beside its prediction.
ExitCode command_correlate(const CommandOptions& options, const CorrelateOptions& correlate_options);

} // namespace crushwright
