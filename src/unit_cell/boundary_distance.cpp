#include "unit_cell/boundary_distance.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

constexpr double promised = 0.1; // cell edges

void require_matching(const UnitCell& cell, const SampleGrid& grid) {
  if (*std::min_element(grid.cells.begin(), grid.cells.end()) < 1)
    throw OutOfDomain(fmt::format("a cell is sampled on at least one grid cell along each edge, not on {} × {} × {}",
                                  grid.cells[0], grid.cells[1], grid.cells[2]));
  const std::array<double, 3> box = repeating_box(cell);
  for (std::size_t axis = 0; axis < 3; ++axis)
    if (std::abs(grid.box[axis] - box[axis]) > 1e-9)
      throw OutOfDomain(fmt::format("cell '{}' repeats in a box of {:.4g} × {:.4g} × {:.4g} edges, and was sampled "
                                    "over one of {:.4g} × {:.4g} × {:.4g}",
                                    cell.id, box[0], box[1], box[2], grid.box[0], grid.box[1], grid.box[2]));
}

} // namespace

std::vector<float> boundary_distance(const UnitCell& cell, double size_ratio, const SampleGrid& grid) {
  const std::unique_ptr<SolidBody> body = solid_body(cell, size_ratio);
  require_matching(cell, grid);
  std::vector<float> field(grid.size(), static_cast<float>(1.01 * promised));
  tbb::parallel_for(0, body->layers(grid), [&](int layer) {
    body->visit_layer(grid, promised, layer,
                      [&](std::size_t index, double distance) { field[index] = static_cast<float>(distance); });
  });
  return field;
}

std::vector<float> boundary_distance(const UnitCell& cell, double size_ratio, int n) {
  return boundary_distance(cell, size_ratio, SampleGrid::cube(n));
}

} // namespace crushwright
