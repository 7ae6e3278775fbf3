#pragma once
#include "command_line/command_input.hpp"
#include "command_line/exit_code.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// What the user wrote behind `cell`, besides what every command takes.
struct CellOptions {
  std::string cell; ///< catalogue id, or path to a cell's YAML file
  std::optional<std::string> relative_density;
  std::optional<std::string> material;
  std::string direction = "100";
  std::optional<std::string> cell_edge;
  bool solid = false;
  std::optional<int> grid;
  std::vector<std::string> laws; ///< empty, or two relative densities
  bool write = false;
  std::optional<std::string> drawing; ///< file
  std::optional<std::string> mesh;    ///< file of the cell's closed mesh
  std::optional<std::string> spacing; ///< of that mesh's grid
};

/// `crushwright cell`: one cell from first principles, beside the evidence of the catalogue; writes its density and
/// laws into its file where asked.
/// @return pass.  @throws InputError.
ExitCode command_cell(const CommandOptions& options, const CellOptions& cell_options);

} // namespace crushwright
