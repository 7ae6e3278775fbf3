#include "estimate/cell_cache.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {

double rounded_ratio(const UnitCell& cell, double size_ratio, double step) {
  const double rounded = std::exp(step * std::round(std::log(size_ratio) / step));
  return std::clamp(rounded, cell.size_ratio_range.low, cell.size_ratio_range.high);
}

std::string cell_key(const UnitCell& cell, const std::string& direction, double size_ratio) {
  std::string key = fmt::format("{} {} {} {} ", cell.id, direction, cell.surface, cell.mesh_file);
  // Numbers as their bytes: a key is only compared, and digits of some hundred numbers cost more than the search.
  const auto add = [&](double value) {
    const auto bytes = std::bit_cast<std::array<char, sizeof value>>(value);
    key.append(bytes.data(), bytes.size());
  };
  add(size_ratio);
  for (const Strut& strut : cell.struts)
    for (const auto& end : {strut.from, strut.to})
      std::for_each(end.begin(), end.end(), add);
  for (const Plate& plate : cell.plates) {
    add(plate.thickness_factor);
    for (const auto& corner : plate.corners)
      std::for_each(corner.begin(), corner.end(), add);
  }
  std::for_each(cell.true_density_coefficients.begin(), cell.true_density_coefficients.end(), add);
  return key;
}

} // namespace crushwright
