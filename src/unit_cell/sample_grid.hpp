#pragma once
#include <array>
#include <cstddef>
#include <functional>

namespace crushwright {

/// Regular grid of sample points over the box that repeats; a sample lies at the centre of its grid cell.
struct SampleGrid {
  std::array<int, 3> cells{};         ///< along x, y, z, each > 0
  std::array<double, 3> box{1, 1, 1}; ///< [cell edges]

  static SampleGrid cube(int n) { return {{n, n, n}, {1, 1, 1}}; }
  double spacing(std::size_t axis) const { return box[axis] / cells[axis]; }
  double centre(std::size_t axis, int place) const { return (place + 0.5) * spacing(axis); }
  std::size_t size() const { return std::size_t(cells[0]) * std::size_t(cells[1]) * std::size_t(cells[2]); }
  /// Flat index, x fastest.
  std::size_t index(int x, int y, int z) const {
    return (std::size_t(z) * std::size_t(cells[1]) + std::size_t(y)) * std::size_t(cells[0]) + std::size_t(x);
  }
};

/// Receives one sample: flat index (x fastest) and distance [cell edges].
using SampleVisitor = std::function<void(std::size_t index, double distance)>;

} // namespace crushwright
