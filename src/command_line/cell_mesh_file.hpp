#pragma once
#include "crushwright/unit_cell.hpp"

#include <optional>
#include <string>

namespace crushwright {

/// Where one cell's closed mesh goes, and how fine it is.
struct CellMeshQuestion {
  std::string file;              ///< ends in .stl or .ply
  double cell_edge = 0;          ///< [m], > 0
  std::optional<double> spacing; ///< of the grid [m]; absent: advised_spacing
};

/// A cell's mesh as bytes, with the lines that tell of it.
struct CellMeshFile {
  std::string bytes;
  std::string text; ///< for the terminal
};

/// Checks the file's ending, so that nothing is computed in vain.
/// @throws InputError for another ending
void require_mesh_ending(const std::string& file);

/// The watertight solid of one cell in millimetres, a corner at the origin.
/// @param relative_density  true [-]
/// @throws OutOfDomain for a cell without a shape to be meshed, a density that it cannot have, or a spacing that
/// could
///         lose a part or makes too many triangles; the message says which spacing serves.
CellMeshFile cell_mesh_file(const UnitCell& cell, double relative_density, const CellMeshQuestion& question);

} // namespace crushwright
