#include "estimate/cell_cache.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <iterator>

namespace crushwright {

double rounded_ratio(const UnitCell& cell, double size_ratio, double step) {
  const double rounded = std::exp(step * std::round(std::log(size_ratio) / step));
  return std::clamp(rounded, cell.size_ratio_range.low, cell.size_ratio_range.high);
}

std::string cell_key(const UnitCell& cell, const std::string& direction, double size_ratio) {
  std::string key = fmt::format("{} {} {} {} {:.6g}", cell.id, direction, cell.surface, cell.mesh_file, size_ratio);
  const auto add = [&](double value) { fmt::format_to(std::back_inserter(key), " {:.9g}", value); };
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
