#pragma once
#include "crushwright/verdict.hpp"

#include <functional>
#include <string>
#include <string_view>

namespace crushwright {

/// What the program's end tells a script.
enum class ExitCode {
  pass = 0,           ///< holds on every side; a study found a design that does
  not_passed = 1,     ///< fail or open; a study found none
  bad_input = 2,      ///< case, catalogue or command line cannot be used
  internal_error = 3, ///< a fault of the program
};

ExitCode exit_code_of(Word word);

/// What a user is asked to do about a fault of the program; ends with a line feed.
std::string internal_error_text(std::string_view what);

/// Runs a command and turns what it throws into words on stderr and an exit code.
ExitCode guarded(const std::function<ExitCode()>& command);

} // namespace crushwright
