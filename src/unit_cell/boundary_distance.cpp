#include "unit_cell/boundary_distance.hpp"

#include "unit_cell/cell_solid.hpp"

namespace crushwright {

std::vector<float> boundary_distance(const UnitCell& cell, double size_ratio, int n) {
  const CellSkeleton skeleton = CellSkeleton::of_cell(cell);
  const std::size_t samples = static_cast<std::size_t>(n) * static_cast<std::size_t>(n) * static_cast<std::size_t>(n);
  std::vector<float> field(samples, static_cast<float>(CellSkeleton::largest_reach));
  skeleton.visit_near(n, CellSkeleton::largest_reach, [&](std::size_t index, double distance) {
    field[index] = static_cast<float>(distance - 0.5 * size_ratio);
  });
  return field;
}

} // namespace crushwright
