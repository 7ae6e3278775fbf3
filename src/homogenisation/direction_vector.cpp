#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {

Eigen::Vector3d direction_vector(const std::string& digits) {
  const bool usable = digits.size() == 3 && digits != "000" &&
                      std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!usable) {
    throw OutOfDomain(
        fmt::format("direction '{}': write three digits in cell axes, for instance 100 along an edge", digits));
  }
  return Eigen::Vector3d(digits[0] - '0', digits[1] - '0', digits[2] - '0').normalized();
}

} // namespace crushwright
