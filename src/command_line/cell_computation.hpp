#pragma once
#include "crushwright/cell_report.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// What is asked of one cell in one metal.
struct CellQuestion {
  double relative_density = 0;    ///< true [-]
  std::string direction = "100";  ///< of crushing, three digits in cell axes
  double cell_edge = 0;           ///< [m]; 0 when none is stated
  bool solid = false;             ///< voxels also for a cell of struts
  int grid = 64;                  ///< voxels along the cell edge on the finer of two grids; a multiple of 4
  int law_grid = 128;             ///< the most that laws take, ComputedLawOptions::grid
  std::optional<Range> law_range; ///< true relative densities over which laws are fitted
  std::string version;            ///< of the program
};

/// The laws fitted over the asked range; they belong to every metal. None where no range is asked.
/// @param notes  receives what was not computed, and why
std::vector<FittedLaw> fitted_laws(const UnitCell& cell, const CellQuestion& question,
                                   std::vector<std::string>& notes);

/// Computes a cell at one density: as a frame where it is one, as voxels where asked or where it is none, and sets
/// that beside the evidence of the catalogue. The computed values of this density stand last in that evidence and are
/// not used: a case uses laws alone. Fitted laws take part in it as if the entry held them.
/// @throws OutOfDomain for a density, direction or range that the cell does not have.
CellReport computed_report(const UnitCell& cell, const BaseMaterial& material, const CellQuestion& question);

} // namespace crushwright
