#pragma once
#include "lattice_body/cell_survey.hpp"
#include "lattice_body/strut_network.hpp"

#include <vector>

namespace crushwright {

/// What trimming knows and reporting needs.
struct StrutFill {
  LatticeFrame frame;
  RepeatingStruts lattice;
  CellSurvey survey;
  std::vector<std::uint8_t> whole; ///< 1: the cell has all its struts; shape = survey.block.size()
  TrimmedLattice trimmed;
};

/// Trims; see trim_struts.
/// @param low, high  bounds of the outer surface
StrutFill strut_fill(const UnitCell& cell, const LatticePlacement& placement, const SizeAt& size,
                     const InnerRegion& region, const Eigen::Vector3d& low, const Eigen::Vector3d& high,
                     const TrimOptions& options);

/// Reports on what was trimmed.
FillReport fill_report(const UnitCell& cell, const StrutFill& fill, const SizeAt& size, const InnerRegion& region);

/// Allowance on every boundary against rounding [cell edges].
constexpr double boundary_grain = 1e-6;

} // namespace crushwright
