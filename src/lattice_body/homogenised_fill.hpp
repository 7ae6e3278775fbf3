#pragma once
#include "lattice_body/cell_survey.hpp"

#include <cstdint>
#include <functional>
#include <vector>

namespace crushwright {

/// What a homogenised lattice fills.
struct HomogenisedFill {
  double room = 0;       ///< volume of the region [m^3]
  double metal = 0;      ///< its integral of the density [m^3]
  double core_metal = 0; ///< the part of it in the core's cells [m^3]
};

/// Relative density at a point [-]; asked from several threads at once.
using DensityAt = std::function<double(const Eigen::Vector3d&)>;

/// Integrates a density over the region. Cells inside: two Gauss points each way. Cells near the boundary are halved
/// until one distance tells a part; parts still undecided at the last halving count by how far the boundary cuts into
/// them, as if it lay across an edge. There are about 50,000 to 200,000 of those, whatever the size of the body.
/// @param core  1 for the cells of the core, all of them inside; shape = survey.block.size()
HomogenisedFill homogenised_fill(const LatticeFrame& frame, const CellSurvey& survey, const InnerRegion& region,
                                 const std::vector<std::uint8_t>& core, const DensityAt& density);

/// Integral of a density over one cell with two Gauss points each way [m^3].
double over_cell(const LatticeFrame& frame, const Eigen::Vector3i& cell, const DensityAt& density);

} // namespace crushwright
