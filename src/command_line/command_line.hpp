#pragma once

namespace crushwright {

/// The program: reads the command line, runs one command, returns the exit code (exit_code.hpp). Results go to
/// stdout, everything else to stderr.
/// @param words  shape = (count), the program's name first.
int run_command_line(int count, const char* const* words);

} // namespace crushwright
