#include "homogenisation/voxel_extrapolation.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

/// A size towards the middle of the cell's range, so that it stays inside.
double neighbouring_size(const UnitCell& cell, double size_ratio, double step) {
  const Range& range = cell.size_ratio_range;
  const double middle = 0.5 * (range.low + range.high);
  return std::clamp(size_ratio * (size_ratio < middle ? 1 + step : 1 - step), range.low, range.high);
}

/// d ln(stiffness) / d ln(density) between this size and the nearest one that takes other voxels: plates in line with
/// the grid gain a whole layer or nothing.
template <class OnGrid>
double measured_exponent(const UnitCell& cell, const SolidStiffness& own, const OnGrid& on_grid) {
  for (const double step : {0.1, 0.2, 0.4, 0.8}) {
    const SolidStiffness other = on_grid(neighbouring_size(cell, own.size_ratio, step), own.grid);
    if (other.relative_density != own.relative_density)
      return std::log(other.over_youngs_modulus.norm() / own.over_youngs_modulus.norm()) /
             std::log(other.relative_density / own.relative_density);
  }
  throw OutOfDomain(fmt::format("extrapolation: size {:g} and all near it take the same voxels on {} along the edge. "
                                "Take a finer first grid.",
                                own.size_ratio, own.grid));
}

} // namespace

Extrapolated extrapolated(double coarse, double fine, double refinement, double order) {
  if (!(refinement > 1 && order > 0))
    throw OutOfDomain(fmt::format("extrapolation: refinement {:g}, order {:g}; expected a refinement over 1 and an "
                                  "order over 0",
                                  refinement, order));
  const double step = (fine - coarse) / (std::pow(refinement, order) - 1);
  return {fine + step, std::abs(step)};
}

double observed_order(double coarse, double middle, double fine, double refinement) {
  const double ratio = (middle - coarse) / (fine - middle);
  if (!(ratio > 1 && std::isfinite(ratio)))
    throw OutOfDomain(fmt::format("order of convergence: {:g}, {:g}, {:g} do not approach a limit in one direction",
                                  coarse, middle, fine));
  return std::log(ratio) / std::log(refinement);
}

ExtrapolatedStiffness extrapolated_stiffness(const UnitCell& cell, double size_ratio, double poissons_ratio,
                                             int coarse_grid, int fine_grid, double tolerance) {
  if (fine_grid <= coarse_grid)
    throw OutOfDomain(
        fmt::format("extrapolation: grids {} and {}; expected the second to be finer", coarse_grid, fine_grid));
  const auto on_grid = [&](double ratio, int grid) {
    return solid_stiffness(cell, ratio, poissons_ratio, SolidOptions{grid, tolerance});
  };
  ExtrapolatedStiffness result;
  result.coarse = on_grid(size_ratio, coarse_grid);
  result.fine = on_grid(size_ratio, fine_grid);
  result.density_exponent = measured_exponent(cell, result.coarse, on_grid);
  const double density = relative_density(cell, size_ratio);
  const auto at_density = [&](const SolidStiffness& own) -> StiffnessMatrix {
    return own.over_youngs_modulus * std::pow(density / own.relative_density, result.density_exponent);
  };
  const StiffnessMatrix coarse = at_density(result.coarse);
  const StiffnessMatrix fine = at_density(result.fine);
  const double refinement = static_cast<double>(fine_grid) / coarse_grid;
  for (Eigen::Index row = 0; row < 6; ++row)
    for (Eigen::Index column = 0; column < 6; ++column)
      result.over_youngs_modulus(row, column) =
          extrapolated(coarse(row, column), fine(row, column), refinement).value;
  const double step = (result.over_youngs_modulus - fine).norm() / result.over_youngs_modulus.norm();
  result.spread = std::max(step, voxel_layer / result.fine.voxels_across);
  return result;
}

} // namespace crushwright
