#pragma once
#include "crushwright/cell_property.hpp"
#include "crushwright/homogenisation.hpp"
#include "crushwright/material.hpp"
#include "crushwright/unit_cell.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// A law fitted to computed points of one cell, with how well it holds them.
struct FittedLaw {
  std::string property; ///< "elastic modulus" (over Es) or "plateau stress" (over the law's stress basis)
  PowerLaw law;         ///< with its origin: direction, range, basis, evidence `computed`
  std::vector<double> relative_density; ///< of the points, in the law's basis [-]
  std::vector<double> computed;         ///< at those points, same shape, over the base property [-]
  double largest_residual = 0;          ///< largest |law / computed - 1| [-]
};

/// All that is known of one cell at one size in one base metal, ready to be printed or drawn. What was not asked for
/// or does not exist for the cell's class is left empty, and a reader is told that it is missing.
struct CellReport {
  UnitCell cell;
  BaseMaterial material;
  std::string direction; ///< of crushing, three digits in cell axes, "001"

  double size_ratio = 0;               ///< τ, size over edge [-]; 0 for a foam
  double cell_edge = 0;                ///< [m]; 0 when none was stated
  double relative_density = 0;         ///< true [-]
  double nominal_relative_density = 0; ///< [-]
  /// Of the metal's surface over the volume of the cell, times the cell's edge [-]; absent where no shape is known.
  std::optional<double> metal_area;

  std::optional<FrameStiffness> frame;   ///< strut cells
  std::vector<FrameLoad> loads;          ///< one a direction
  std::vector<FrameCollapse> collapses;  ///< one a direction; the one along `direction` with its path
  std::vector<YieldPoint> yield_surface; ///< about `direction`, in order of angle; may be empty

  std::vector<SolidStiffness> solids;                ///< one a grid, rising grid; the last is the finest
  std::optional<StiffnessMatrix> extrapolated_solid; ///< from those grids to none, over Young's modulus
  std::vector<SolidCollapse> solid_collapses;        ///< one a direction or grid

  std::optional<CellProperties> evidence; ///< absent when no law of the catalogue serves
  std::vector<FittedLaw> fitted_laws;
  std::vector<std::string> warnings; ///< besides those of `evidence`
};

} // namespace crushwright
