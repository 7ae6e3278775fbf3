#include "homogenisation/voxel_mesh.hpp"

#include "crushwright/errors.hpp"
#include "homogenisation/voxel_parts.hpp"
#include "unit_cell/boundary_distance.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

/// Voxels that are equally near by the cell's symmetry differ by rounding alone, others by some 1e-6 of the edge.
constexpr float equally_near = 2e-7F;

/// The greatest distance whose voxels are taken; -infinity for none.
float cut_off(std::vector<float> distances, double wanted) {
  std::sort(distances.begin(), distances.end());
  const auto size = distances.size();
  const std::size_t taken = std::clamp(static_cast<std::size_t>(std::llround(wanted)), std::size_t{1}, size);
  std::size_t first = taken - 1; // of the voxels equally near as the last one taken
  while (first > 0 && distances[first] - distances[first - 1] <= equally_near)
    --first;
  std::size_t last = taken - 1;
  while (last + 1 < size && distances[last + 1] - distances[last] <= equally_near)
    ++last;
  const bool with_all = first == 0 || static_cast<double>(last + 1) - wanted <= wanted - static_cast<double>(first);
  return distances[with_all ? last : first - 1];
}

/// A honeycomb is a prism: nothing changes along its axis, and one voxel of any height says all.
SampleGrid voxel_grid(const UnitCell& cell, int n) {
  if (cell.cell_class != CellClass::honeycomb)
    return SampleGrid::cube(n);
  const std::array<double, 3> box = repeating_box(cell);
  const auto even = [n](double edge) { return 2 * std::max(1, static_cast<int>(std::lround(0.5 * n * edge))); };
  return {{even(box[0]), even(box[1]), 1}, box};
}

} // namespace

VoxelSolid voxel_solid(const UnitCell& cell, double size_ratio, int n) {
  const double density = relative_density(cell, size_ratio);
  const SampleGrid grid = voxel_grid(cell, n);
  const std::vector<float> distances = boundary_distance(cell, size_ratio, grid);
  const float cut = cut_off(distances, density * static_cast<double>(distances.size()));
  VoxelSolid solid;
  solid.cells = grid.cells;
  solid.edges = grid.box;
  solid.metal.resize(distances.size());
  std::transform(distances.begin(), distances.end(), solid.metal.begin(),
                 [&](float distance) { return static_cast<std::uint8_t>(distance <= cut); });
  try {
    return with_loose_parts_dropped(std::move(solid));
  } catch (const OutOfDomain& error) {
    if (!is_sized(cell))
      throw OutOfDomain(fmt::format("{}: on {} voxels along the edge {}", cell.name, n, error.what()));
    throw OutOfDomain(fmt::format("{}: {} over {} of {:g} on {} voxels along the edge, {:.2g} voxels across: {}",
                                  cell.name, cell.size_name, cell.edge_name, size_ratio, n, size_ratio * n,
                                  error.what()));
  }
}

VoxelSolid with_loose_parts_dropped(VoxelSolid solid) {
  const VoxelParts parts = voxel_parts(solid);
  if (std::find(parts.reach.begin(), parts.reach.end(), 3) == parts.reach.end())
    throw OutOfDomain("the metal voxels do not hang together through faces to their own copies in all three "
                      "directions. Take a finer grid or a larger size.");
  std::size_t kept = 0;
  for (std::size_t voxel = 0; voxel < solid.metal.size(); ++voxel) {
    if (!solid.metal[voxel])
      continue;
    if (parts.reach[static_cast<std::size_t>(parts.part_of[voxel])] == 3) {
      ++kept;
    } else {
      solid.metal[voxel] = 0;
      ++solid.dropped;
    }
  }
  solid.relative_density = static_cast<double>(kept) / static_cast<double>(solid.metal.size());
  return solid;
}

VoxelMesh voxel_mesh(const VoxelSolid& solid) {
  const auto [nx, ny, nz] = solid.cells;
  VoxelMesh mesh;
  for (std::size_t axis = 0; axis < 3; ++axis)
    mesh.spacing[axis] = solid.edges[axis] / solid.cells[axis];
  const auto index = [nx = nx, ny = ny](int x, int y, int z) {
    return (static_cast<std::size_t>(z) * static_cast<std::size_t>(ny) + static_cast<std::size_t>(y)) *
               static_cast<std::size_t>(nx) +
           static_cast<std::size_t>(x);
  };
  std::vector<std::int32_t> node_at(solid.metal.size(), -1);
  for (int z = 0; z < nz; ++z)
    for (int y = 0; y < ny; ++y)
      for (int x = 0; x < nx; ++x) {
        if (!solid.metal[index(x, y, z)])
          continue;
        mesh.element_place.push_back({x, y, z});
        for (int corner = 0; corner < 8; ++corner)
          node_at[index((x + (corner & 1)) % nx, (y + ((corner >> 1) & 1)) % ny, (z + (corner >> 2)) % nz)] = 0;
      }
  for (std::int32_t& node : node_at)
    if (node == 0)
      node = mesh.nodes++;
  mesh.elements.reserve(mesh.element_place.size());
  for (const auto& [x, y, z] : mesh.element_place) {
    std::array<std::int32_t, 8> nodes{};
    for (int corner = 0; corner < 8; ++corner)
      nodes[static_cast<std::size_t>(corner)] =
          node_at[index((x + (corner & 1)) % nx, (y + ((corner >> 1) & 1)) % ny, (z + (corner >> 2)) % nz)];
    mesh.elements.push_back(nodes);
  }
  return mesh;
}

} // namespace crushwright
