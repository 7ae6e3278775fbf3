#include "unit_cell/strut_identity.hpp"

#include <cmath>

namespace crushwright {

namespace {

double on_grid(double coordinate) {
  return std::round(coordinate * 1e6) / 1e6;
}

} // namespace

Strut folded_strut(const Strut& strut) {
  Strut folded = strut;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double middle = on_grid(0.5 * (strut.from[axis] + strut.to[axis]));
    const double shift = std::floor(middle);
    folded.from[axis] = on_grid(strut.from[axis] - shift);
    folded.to[axis] = on_grid(strut.to[axis] - shift);
  }
  if (folded.to < folded.from) {
    std::swap(folded.from, folded.to);
  }
  return folded;
}

std::optional<std::pair<std::size_t, std::size_t>> repeated_strut(const std::vector<Strut>& struts) {
  for (std::size_t second = 1; second < struts.size(); ++second) {
    const Strut folded = folded_strut(struts[second]);
    for (std::size_t first = 0; first < second; ++first) {
      const Strut other = folded_strut(struts[first]);
      if (other.from == folded.from && other.to == folded.to) {
        return std::pair(first, second);
      }
    }
  }
  return std::nullopt;
}

double strut_length(const Strut& strut) {
  return std::hypot(strut.to[0] - strut.from[0], strut.to[1] - strut.from[1], strut.to[2] - strut.from[2]);
}

} // namespace crushwright
