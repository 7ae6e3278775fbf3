#pragma once
#include "command_line/command_input.hpp"
#include "command_line/exit_code.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// What the user wrote behind `fill` besides the shared options.
struct FillOptions {
  std::optional<std::string> structure; ///< absent: every structure that is no mirror
  bool best_direction = false;
  bool solid = false;                 ///< write the lattice as a closed surface too
  std::optional<std::string> spacing; ///< of that surface's grid
  std::optional<std::string> block;   ///< edge of the blocks that it is cut into
  std::vector<std::string> between;   ///< two stations between which it is written; empty: all of it
};

/// Places the lattice of a case's structures, cuts it to shape, reports, and writes the files for printer and
/// analysis.
ExitCode command_fill(const CommandOptions& options, const FillOptions& fill);

} // namespace crushwright
