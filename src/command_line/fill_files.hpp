#pragma once
#include "crushwright/estimate.hpp"
#include "crushwright/filling.hpp"
#include "result_file/file_set.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// How the lattice is written as a closed surface.
struct SolidOptions {
  bool wanted = false;
  double spacing = 0;           ///< of the grid [m]; 0: about a quarter of a wall, an eighth of a strut
  double block = 0;             ///< edge of the blocks [m]; 0: one surface
  std::optional<Range> between; ///< stations between which it is written [m]; absent: all of it
};

/// A file of the pack, and what it holds in one line.
struct ShapeFile {
  PackFile file;
  std::string what;
};

/// Files of one filled structure: its outer surface (STL, mm), struts with skin (3MF), layers (VTU), and the lattice
/// as a closed surface where it is wanted.
/// @throws InputError when the surface would be too large or the spacing too coarse; it says what would fit.
std::vector<ShapeFile> geometry_files(const FilledStructure& filled, const StructureModel& model,
                                      const SolidOptions& solid);

} // namespace crushwright
