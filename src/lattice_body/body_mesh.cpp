#include "lattice_body/body_mesh.hpp"

#include "crushwright/errors.hpp"
#include "lattice_body/body_field.hpp"
#include "lattice_body/body_sizes.hpp"
#include "unit_cell/solid_body.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Point = std::array<double, 3>;

struct BodyGrid {
  FieldGrid whole;
  std::array<int, 3> block{};  ///< grid cells along a block's edge
  std::array<int, 3> blocks{}; ///< along each axis
};

BodyGrid grid_of(const LatticeSolid& solid, double spacing, double block_edge) {
  BodyGrid grid;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    // A body's own surface closes it: half a spacing keeps the box's faces clear of it.
    const bool cut_by_box = !solid.outer || (solid.flat_ends && axis == 0);
    const double margin = cut_by_box ? 0 : 0.5 * spacing;
    const double low = solid.box.low[axis] - margin;
    const double length = solid.box.high[axis] + margin - low;
    if (!(length > 0))
      throw OutOfDomain(fmt::format("a body's box has a length over 0 along {}, not {:g} m", "xyz"[axis], length));
    const double cells = std::ceil(length / spacing - 1e-9);
    if (cells > 1e6)
      throw OutOfDomain(fmt::format("a spacing of {:.3g} mm makes {:.2g} grid cells along {}, more than 1e6",
                                    1e3 * spacing, cells, "xyz"[axis]));
    grid.whole.origin[axis] = low;
    grid.whole.cells[axis] = std::max(1, static_cast<int>(cells));
    grid.whole.spacing[axis] = length / grid.whole.cells[axis];
    const double block = block_edge > 0 ? std::floor(block_edge / grid.whole.spacing[axis] + 1e-9) : cells;
    grid.block[axis] = std::clamp(static_cast<int>(std::min(block, 1e6)), 1, grid.whole.cells[axis]);
    grid.blocks[axis] = (grid.whole.cells[axis] + grid.block[axis] - 1) / grid.block[axis];
  }
  return grid;
}

FieldGrid block_grid(const BodyGrid& grid, const std::array<int, 3>& block) {
  FieldGrid part = grid.whole;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    part.first[axis] = block[axis] * grid.block[axis];
    part.cells[axis] = std::min(grid.block[axis], grid.whole.cells[axis] - part.first[axis]);
  }
  return part;
}

Point area_vector(const Point& a, const Point& b, const Point& c) {
  const Point u{b[0] - a[0], b[1] - a[1], b[2] - a[2]}, v{c[0] - a[0], c[1] - a[1], c[2] - a[2]};
  return {0.5 * (u[1] * v[2] - u[2] * v[1]), 0.5 * (u[2] * v[0] - u[0] * v[2]), 0.5 * (u[0] * v[1] - u[1] * v[0])};
}

bool in_a_face(const Point& a, const Point& b, const Point& c, const Point& low, const Point& high) {
  for (std::size_t axis = 0; axis < 3; ++axis)
    if (a[axis] == b[axis] && b[axis] == c[axis] && (a[axis] == low[axis] || a[axis] == high[axis]))
      return true;
  return false;
}

/// Volume, surface and cuts of a mesh, about the grid's low corner.
void measure(BodyPart& part, const FieldGrid& grid) {
  const Point low = grid.corner(0, 0, 0), high = grid.corner(grid.cells[0], grid.cells[1], grid.cells[2]);
  for (const auto& triangle : part.mesh.triangles) {
    const Point& a = part.mesh.points[std::size_t(triangle[0])];
    const Point& b = part.mesh.points[std::size_t(triangle[1])];
    const Point& c = part.mesh.points[std::size_t(triangle[2])];
    const Point area = area_vector(a, b, c);
    part.volume += ((a[0] - low[0]) * area[0] + (a[1] - low[1]) * area[1] + (a[2] - low[2]) * area[2]) / 3;
    (in_a_face(a, b, c, low, high) ? part.cut_area : part.surface) += std::hypot(area[0], area[1], area[2]);
  }
  part.spacing = *std::max_element(grid.spacing.begin(), grid.spacing.end());
}

void require_options(const LatticeSolid& solid, const BodyMeshOptions& options) {
  if (!(options.spacing > 0))
    throw OutOfDomain(fmt::format("a mesh has a spacing over 0, not {:g} mm", 1e3 * options.spacing));
  const double coarsest = coarsest_spacing(solid);
  if (options.spacing > coarsest * (1 + 1e-9))
    throw OutOfDomain(fmt::format("{}: a grid spacing of {:.4g} mm could lose {}: take {:.4g} mm or less",
                                  solid.cell.name, 1e3 * options.spacing, thinnest_part(solid), 1e3 * coarsest));
}

/// Before the work is begun; the mesh itself is counted again.
void require_count(const LatticeSolid& solid, const BodyMeshOptions& options) {
  double block = 1;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double length = solid.box.high[axis] - solid.box.low[axis];
    block *= options.block_edge > 0 ? std::min(options.block_edge, length) : length;
  }
  const double most = double(options.most_triangles);
  const double densest = densest_triangles(solid, options.spacing);
  const double expected = std::min(expected_triangles(solid, options.spacing), densest * block);
  if (expected <= 1.3 * most) // an estimate that is only a little over may be wrong
    return;
  const double spacing = 1.1 * options.spacing * std::sqrt(expected / most);
  const std::string coarser = spacing <= coarsest_spacing(solid)
                                  ? fmt::format("a spacing of {:.3g} mm, or blocks", 1e3 * spacing)
                                  : std::string("blocks");
  throw OutOfDomain(fmt::format("{}: at a spacing of {:.4g} mm {} would hold about {:.2g} triangles, more than the "
                                "{:.3g} that are allowed: take {} of {:.3g} mm",
                                solid.cell.name, 1e3 * options.spacing,
                                options.block_edge > 0 ? "a block" : "the mesh", expected, most, coarser,
                                1e3 * std::cbrt(0.7 * most / densest)));
}

BodyPart part_of(const FieldAt& field, const FieldGrid& grid, std::size_t most_triangles) {
  FieldMeshLimit limit;
  limit.triangles = most_triangles;
  BodyPart part;
  part.mesh = mesh_of_field(field, grid, limit);
  measure(part, grid);
  return part;
}

} // namespace

BodyPart mesh_body(const LatticeSolid& solid, const BodyMeshOptions& options,
                   const std::function<void(const std::array<int, 3>& block, const BodyPart& part)>& visitor) {
  require_options(solid, options);
  require_count(solid, options);
  const FieldAt field = body_field(solid);
  const BodyGrid grid = grid_of(solid, options.spacing, options.block_edge);
  BodyPart sum;
  for (int z = 0; z < grid.blocks[2]; ++z)
    for (int y = 0; y < grid.blocks[1]; ++y)
      for (int x = 0; x < grid.blocks[0]; ++x) {
        const BodyPart part = part_of(field, block_grid(grid, {x, y, z}), options.most_triangles);
        sum.volume += part.volume;
        sum.surface += part.surface;
        sum.cut_area += part.cut_area;
        sum.spacing = part.spacing;
        if (!part.mesh.triangles.empty())
          visitor({x, y, z}, part);
      }
  return sum;
}

BodyPart mesh_body(const LatticeSolid& solid, const BodyMeshOptions& options) {
  BodyMeshOptions whole = options;
  whole.block_edge = 0;
  require_options(solid, whole);
  require_count(solid, whole);
  return part_of(body_field(solid), grid_of(solid, options.spacing, 0).whole, options.most_triangles);
}

LatticeSolid one_cell(const UnitCell& cell, double size_ratio, double cell_edge) {
  if (cell.cell_class == CellClass::foam || cell.cell_class == CellClass::solid)
    throw OutOfDomain(
        cell.cell_class == CellClass::foam
            ? fmt::format("cell '{}' is a foam: it has no solid of its own, only a density", cell.id)
            : fmt::format("cell '{}' is a mesh already, {}: there is nothing to mesh", cell.id, cell.mesh_file));
  LatticeSolid solid;
  solid.cell = cell;
  solid.placement.cell_edge = cell_edge;
  const double size = size_ratio * cell_edge;
  solid.size = [size](const Point&) { return size; };
  const std::array<double, 3> box = repeating_box(cell);
  solid.box.high = {box[0] * cell_edge, box[1] * cell_edge, box[2] * cell_edge};
  return solid;
}

BodyPart mesh_cell(const UnitCell& cell, double size_ratio, double cell_edge, const BodyMeshOptions& options) {
  return mesh_body(one_cell(cell, size_ratio, cell_edge), options);
}

} // namespace crushwright
