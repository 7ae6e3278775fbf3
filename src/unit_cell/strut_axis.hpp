#pragma once
#include "crushwright/unit_cell.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <vector>

namespace crushwright {

/// A strut's axis prepared for many distance queries.
struct StrutAxis {
  Eigen::Vector3d from;
  Eigen::Vector3d along;
  double along_squared = 0;
  double radius = 0; ///< taken off every distance

  double distance(const Eigen::Vector3d& p) const {
    const Eigen::Vector3d offset = p - from;
    const double s = std::clamp(offset.dot(along) / along_squared, 0.0, 1.0);
    return (offset - s * along).norm() - radius;
  }
};

inline std::vector<StrutAxis> strut_axes(const std::vector<Strut>& struts, double radius) {
  std::vector<StrutAxis> axes;
  axes.reserve(struts.size());
  for (const Strut& strut : struts) {
    const Eigen::Vector3d from(strut.from.data());
    const Eigen::Vector3d along = Eigen::Vector3d(strut.to.data()) - from;
    axes.push_back({from, along, along.squaredNorm(), radius});
  }
  return axes;
}

} // namespace crushwright
