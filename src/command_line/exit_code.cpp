#include "command_line/exit_code.hpp"

#include "command_line/program_version.hpp"
#include "crushwright/errors.hpp"

#include <cstdio>
#include <exception>

#include <fmt/format.h>

namespace crushwright {

ExitCode exit_code_of(Word word) {
  return word == Word::pass ? ExitCode::pass : ExitCode::not_passed;
}

std::string internal_error_text(std::string_view what) {
  return fmt::format("crushwright {}: internal error: {}\n"
                     "This is a fault of the program, not of your input. Please report it with this message, the "
                     "command\nand the case file.\n",
                     program_version(), what);
}

ExitCode guarded(const std::function<ExitCode()>& command) {
  try {
    return command();
  } catch (const InputError& error) {
    fmt::print(stderr, "{}\n", error.what());
    return ExitCode::bad_input;
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}", internal_error_text(error.what()));
  } catch (...) {
    fmt::print(stderr, "{}", internal_error_text("something of an unknown kind was thrown"));
  }
  return ExitCode::internal_error;
}

} // namespace crushwright
