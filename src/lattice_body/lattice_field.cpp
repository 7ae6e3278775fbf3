#include "lattice_body/lattice_field.hpp"

#include "crushwright/errors.hpp"
#include "lattice_body/cell_metal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace crushwright {
namespace {

double dot(const std::array<double, 3>& a, const std::array<double, 3>& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

void require_placement(const LatticePlacement& placement) {
  if (!(placement.cell_edge > 0 && std::isfinite(placement.cell_edge)))
    throw OutOfDomain(fmt::format("a lattice has a cell edge over 0, not {:g} m", placement.cell_edge));
  const auto& axes = placement.axes;
  const std::array<double, 3> third{axes[0][1] * axes[1][2] - axes[0][2] * axes[1][1],
                                    axes[0][2] * axes[1][0] - axes[0][0] * axes[1][2],
                                    axes[0][0] * axes[1][1] - axes[0][1] * axes[1][0]};
  const double rounding = 1e-6;
  const bool square = std::abs(dot(axes[0], axes[0]) - 1) < rounding &&
                      std::abs(dot(axes[1], axes[1]) - 1) < rounding && std::abs(dot(axes[0], axes[1])) < rounding &&
                      std::abs(dot(third, axes[2]) - 1) < rounding && std::abs(dot(axes[2], axes[2]) - 1) < rounding;
  if (!square)
    throw OutOfDomain("a lattice's axes are three unit vectors at right angles in right-handed order, to 1e-6");
}

} // namespace

std::array<double, 3> in_cell_edges(const LatticePlacement& placement, const std::array<double, 3>& point) {
  const std::array<double, 3> from{point[0] - placement.origin[0], point[1] - placement.origin[1],
                                   point[2] - placement.origin[2]};
  return {dot(placement.axes[0], from) / placement.cell_edge, dot(placement.axes[1], from) / placement.cell_edge,
          dot(placement.axes[2], from) / placement.cell_edge};
}

FieldAt lattice_field(const UnitCell& cell, const LatticePlacement& placement, const SizeAt& size) {
  require_placement(placement);
  std::shared_ptr<const CellMetal> metal = cell_metal(cell);
  const Range ratios = cell.size_ratio_range;
  return [=, name = cell.name, size_name = cell.size_name](const std::array<double, 3>& point) {
    const double here = size(point);
    const double stated = here / placement.cell_edge;
    const double ratio = std::clamp(stated, ratios.low, ratios.high);
    if (!(std::abs(stated - ratio) <= 1e-9 * ratio))
      throw OutOfDomain(fmt::format("{}: at ({:.6g}, {:.6g}, {:.6g}) m the {} is {:.4g} mm, {:.4g} of the edge; the "
                                    "catalogue entry holds from {:g} to {:g}",
                                    name, point[0], point[1], point[2], size_name, 1e3 * here, stated, ratios.low,
                                    ratios.high));
    return placement.cell_edge * metal->distance(in_cell_edges(placement, point), ratio);
  };
}

} // namespace crushwright
