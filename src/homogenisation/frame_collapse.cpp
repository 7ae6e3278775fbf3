#include "homogenisation/frame_collapse.hpp"

#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "homogenisation/collapse_path.hpp"
#include "homogenisation/limit_analysis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace crushwright {

HingedFrame hinged_frame_of(const UnitCell& cell, double size_ratio) {
  if (cell.struts.empty()) {
    throw OutOfDomain(fmt::format("cell {} has no struts: limit analysis of a frame is for strut cells", cell.id));
  }
  if (!cell.size_ratio_range.contains(size_ratio)) {
    throw OutOfDomain(fmt::format("size ratio {} of cell {} is outside {} to {}", size_ratio, cell.id,
                                  cell.size_ratio_range.low, cell.size_ratio_range.high));
  }
  return hinged_frame(frame_topology(cell.struts), size_ratio);
}

Eigen::Vector3d unit_direction(const Eigen::Vector3d& direction) {
  const double length = direction.norm();
  if (!(length > 0 && std::isfinite(length))) {
    throw OutOfDomain("a direction needs a length");
  }
  return direction / length;
}

FrameCollapse frame_collapse(const UnitCell& cell, double size_ratio, const Eigen::Vector3d& direction,
                             double path_end) {
  if (!(path_end >= 0 && path_end <= 0.6)) {
    throw OutOfDomain(fmt::format("last strain {} of a crush path is outside 0 to 0.6", path_end));
  }
  FrameCollapse result;
  result.direction = unit_direction(direction);
  const HingedFrame frame = hinged_frame_of(cell, size_ratio);
  const LimitLoad load = limit_load(frame, axial_stress(result.direction));
  // Bars of a frame run through their nodes undiminished, so very thick ones count shared metal twice; no solid of
  // this density carries more than its share of the section at yield.
  const double squash = relative_density(cell, size_ratio);
  result.lower = std::min(load.lower, squash);
  result.upper = std::min(load.upper, squash);
  result.cuts = load.cuts;
  if (path_end > 0) {
    CollapsePath path = collapse_path(frame, result.direction, {.end = path_end});
    result.path_strain = std::move(path.strain);
    result.path_stress = std::move(path.stress);
    result.mean_path_stress = path.mean_stress;
  }
  return result;
}

} // namespace crushwright
