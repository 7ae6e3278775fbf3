#pragma once
#include <array>
#include <cstddef>
#include <functional>
#include <vector>

namespace crushwright {

/// A body as the set of points with a value below 0. The value must not change faster than `FieldGrid::slope` times
/// the way walked, as a distance does; far from the boundary it may be any lower bound of the distance. Asked from
/// several threads at once.
using FieldAt = std::function<double(const std::array<double, 3>&)>;

/// A box of grid cells. Its corners lie at origin + spacing × (first + i), so that boxes of one origin and spacing
/// share the places of their common corners to the last bit.
struct FieldGrid {
  std::array<double, 3> origin{};
  std::array<double, 3> spacing{}; ///< [length], > 0
  std::array<int, 3> first{};      ///< of the box's low corner
  std::array<int, 3> cells{};      ///< along x, y, z, each > 0
  double slope = 1.25;             ///< [-]: the most by which the field changes over a way of 1

  int corners(std::size_t axis) const { return cells[axis] + 1; }
  std::size_t corner_count() const {
    return std::size_t(corners(0)) * std::size_t(corners(1)) * std::size_t(corners(2));
  }
  /// Flat place of a corner, x fastest.
  std::size_t index(int x, int y, int z) const {
    return (std::size_t(z) * std::size_t(corners(1)) + std::size_t(y)) * std::size_t(corners(0)) + std::size_t(x);
  }
  std::array<double, 3> corner(int x, int y, int z) const {
    return {origin[0] + spacing[0] * (first[0] + x), origin[1] + spacing[1] * (first[1] + y),
            origin[2] + spacing[2] * (first[2] + z)};
  }
};

/// The field at every corner of a grid, x fastest. Where a whole block of corners is farther from the boundary than
/// the field at its middle can bridge, that value stands for all of them; signs are right everywhere.
/// @throws OutOfDomain when a value is not a number.
std::vector<float> field_samples(const FieldAt& field, const FieldGrid& grid);

} // namespace crushwright
