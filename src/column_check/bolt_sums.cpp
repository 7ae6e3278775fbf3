#include "column_check/bolt_sums.hpp"

namespace crushwright {

BoltSums bolt_sums(const std::vector<std::array<double, 2>>& places) {
  BoltSums sums;
  sums.count = static_cast<double>(places.size());
  for (const auto& [y, z] : places) {
    sums.middle[0] += y / sums.count;
    sums.middle[1] += z / sums.count;
  }
  for (const std::array<double, 2>& place : places) {
    const double y = place[0] - sums.middle[0], z = place[1] - sums.middle[1];
    sums.yy += y * y;
    sums.zz += z * z;
    sums.yz += y * z;
  }
  return sums;
}

bool in_a_row(const BoltSums& sums) {
  constexpr double flat = 1e-6;
  return !(sums.determinant() > flat * sums.polar() * sums.polar());
}

} // namespace crushwright
