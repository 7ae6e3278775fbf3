#pragma once
#include "homogenisation/hinged_frame.hpp"

#include <Eigen/Geometry>

#include <numbers>

namespace crushwright {

inline std::vector<Strut> bcc_struts() {
  std::vector<Strut> struts;
  for (int corner = 0; corner < 8; ++corner) {
    struts.push_back({{double(corner & 1), double(corner >> 1 & 1), double(corner >> 2)}, {0.5, 0.5, 0.5}});
  }
  return struts;
}

inline std::vector<Strut> cubic_struts() {
  return {{{0, 0, 0}, {1, 0, 0}}, {{0, 0, 0}, {0, 1, 0}}, {{0, 0, 0}, {0, 0, 1}}};
}

/// Faces and octahedron of the octet truss: every node's twelve neighbours, each strut once.
inline std::vector<Strut> octet_struts() {
  const std::vector<Eigen::Vector3d> nodes{{0, 0, 0}, {0, 0.5, 0.5}, {0.5, 0, 0.5}, {0.5, 0.5, 0}};
  std::vector<Strut> struts;
  for (const Eigen::Vector3d& node : nodes) {
    for (const Eigen::Vector3d& step :
         {Eigen::Vector3d(0, 0.5, 0.5), Eigen::Vector3d(0, 0.5, -0.5), Eigen::Vector3d(0.5, 0, 0.5),
          Eigen::Vector3d(0.5, 0, -0.5), Eigen::Vector3d(0.5, 0.5, 0), Eigen::Vector3d(0.5, -0.5, 0)}) {
      const Eigen::Vector3d end = node + step;
      struts.push_back({{node[0], node[1], node[2]}, {end[0], end[1], end[2]}});
    }
  }
  return struts;
}

/// Edges of the truncated octahedron, two of which fill the cube.
inline std::vector<Strut> kelvin_struts() {
  std::vector<Eigen::Vector3d> corners;
  for (int zero = 0; zero < 3; ++zero) {
    for (int sign = 0; sign < 8; ++sign) {
      Eigen::Vector3d corner = Eigen::Vector3d::Constant(0.5);
      corner[(zero + 1) % 3] += (sign & 1) != 0 ? 0.25 : -0.25;
      corner[(zero + 2) % 3] += (sign & 2) != 0 ? 0.5 : -0.5;
      if ((sign & 4) != 0) {
        corner = Eigen::Vector3d::Constant(0.5);
        corner[(zero + 1) % 3] += (sign & 1) != 0 ? 0.5 : -0.5;
        corner[(zero + 2) % 3] += (sign & 2) != 0 ? 0.25 : -0.25;
      }
      corners.push_back(corner);
    }
  }
  std::vector<Strut> struts;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    for (std::size_t j = i + 1; j < corners.size(); ++j) {
      if (std::abs((corners[i] - corners[j]).norm() - std::sqrt(0.125)) < 1e-9) {
        struts.push_back(
            {{corners[i][0], corners[i][1], corners[i][2]}, {corners[j][0], corners[j][1], corners[j][2]}});
      }
    }
  }
  return struts;
}

inline HingedFrame frame_of(const std::vector<Strut>& struts, double diameter, double share = hinge_share_of_reach) {
  return hinged_frame(frame_topology(struts), diameter, share);
}

/// Sum of strut volumes over the volume of the period.
inline double nominal_density(const HingedFrame& frame) {
  double volume = 0;
  for (const HingedStrut& strut : frame.struts) {
    volume += std::numbers::pi * strut.radius * strut.radius * frame.span(strut).norm();
  }
  return volume / frame.volume();
}

/// Two periods along an axis as one.
inline HingedFrame doubled(const HingedFrame& frame, int axis) {
  HingedFrame twice = frame;
  const auto nodes = static_cast<int>(frame.nodes.size());
  for (const Eigen::Vector3d& node : frame.nodes) {
    twice.nodes.push_back(node + frame.periods.col(axis));
  }
  twice.joints *= 2;
  twice.periods.col(axis) *= 2;
  twice.struts.clear();
  for (int half = 0; half < 2; ++half) {
    for (HingedStrut strut : frame.struts) {
      const int place = half + strut.shift[axis];
      strut.from += half * nodes;
      strut.to += (place & 1) * nodes;
      strut.shift[axis] = (place - (place & 1)) / 2;
      twice.struts.push_back(strut);
    }
  }
  return twice;
}

/// A column from node to node along z, braced across by bars too thick to yield.
inline HingedFrame braced_column(const std::vector<Eigen::Vector3d>& nodes, double radius) {
  HingedFrame frame;
  frame.nodes = nodes;
  frame.joints = static_cast<int>(nodes.size());
  for (int k = 0; k < frame.joints; ++k) {
    HingedStrut strut;
    strut.from = k;
    strut.to = (k + 1) % frame.joints;
    strut.shift = Eigen::Vector3i(0, 0, k + 1 == frame.joints ? 1 : 0);
    strut.radius = radius;
    frame.struts.push_back(strut);
  }
  for (int axis = 0; axis < 2; ++axis) {
    HingedStrut brace;
    brace.shift = Eigen::Vector3i::Unit(axis);
    brace.radius = 10 * radius;
    frame.struts.push_back(brace);
  }
  return frame;
}

} // namespace crushwright
