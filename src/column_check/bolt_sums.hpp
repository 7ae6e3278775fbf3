#pragma once
#include <array>
#include <vector>

namespace crushwright {

/// Sums over the bolts of a pattern about their own middle.
struct BoltSums {
  double count = 0;
  std::array<double, 2> middle{}; ///< (y, z) [m]
  double yy = 0, zz = 0, yz = 0;  ///< [m^2]
  double polar() const { return yy + zz; }
  double determinant() const { return yy * zz - yz * yz; }
};
BoltSums bolt_sums(const std::vector<std::array<double, 2>>& places);

/// Bolts on one line, or all at one place, carry no moment about that line.
bool in_a_row(const BoltSums& sums);

} // namespace crushwright
