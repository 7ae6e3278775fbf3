#pragma once
#include "homogenisation/voxel_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace crushwright {

/// Voxels made by hand: metal where the condition on the voxel's indices holds; nothing is dropped.
inline VoxelSolid voxels_where(std::array<int, 3> cells, const std::function<bool(int x, int y, int z)>& metal,
                               std::array<double, 3> edges = {1, 1, 1}) {
  VoxelSolid solid;
  solid.cells = cells;
  solid.edges = edges;
  std::size_t count = 0;
  for (int z = 0; z < cells[2]; ++z)
    for (int y = 0; y < cells[1]; ++y)
      for (int x = 0; x < cells[0]; ++x) {
        const bool inside = metal(x, y, z);
        solid.metal.push_back(inside ? 1 : 0);
        count += inside ? 1 : 0;
      }
  solid.relative_density = static_cast<double>(count) / static_cast<double>(solid.metal.size());
  return solid;
}

/// Three sets of walls of `thick` voxels, one across each axis of an n × n × n cell.
inline VoxelSolid cubic_plates(int n, int thick) {
  return voxels_where({n, n, n}, [=](int x, int y, int z) { return x < thick || y < thick || z < thick; });
}

/// A gyroid sheet of about the wanted density: the voxels with the least |Σ sin x cos y|.
inline VoxelSolid wavy_sheet(int n, double density) {
  const auto height = [n](int x, int y, int z) {
    const double turn = 2 * std::numbers::pi / n;
    const std::array<double, 3> at{turn * (x + 0.5), turn * (y + 0.5), turn * (z + 0.5)};
    return std::abs(std::sin(at[0]) * std::cos(at[1]) + std::sin(at[1]) * std::cos(at[2]) +
                    std::sin(at[2]) * std::cos(at[0]));
  };
  std::vector<double> heights;
  for (int z = 0; z < n; ++z)
    for (int y = 0; y < n; ++y)
      for (int x = 0; x < n; ++x)
        heights.push_back(height(x, y, z));
  const auto middle = heights.begin() + static_cast<std::ptrdiff_t>(density * static_cast<double>(heights.size()));
  std::nth_element(heights.begin(), middle, heights.end());
  const double limit = *middle + 1e-9;
  return voxels_where({n, n, n}, [&](int x, int y, int z) { return height(x, y, z) < limit; });
}

} // namespace crushwright
