#include "homogenisation/hinged_frame.hpp"

#include "homogenisation/section_curve.hpp"

#include <Eigen/Geometry>

namespace crushwright {

Eigen::Vector3d HingedFrame::span(const HingedStrut& strut) const {
  return nodes[static_cast<std::size_t>(strut.to)] + periods * strut.shift.cast<double>() -
         nodes[static_cast<std::size_t>(strut.from)];
}

Eigen::Vector3d HingedFrame::clear_span(const HingedStrut& strut) const {
  return span(strut) + strut.to_arm - strut.from_arm;
}

HingedFrame hinged_frame(const FrameTopology& topology, double diameter, double share) {
  HingedFrame frame;
  frame.nodes = topology.nodes;
  frame.joints = static_cast<int>(topology.nodes.size());
  const std::vector<NodeReach> reaches = node_reaches(topology, diameter);
  for (std::size_t m = 0; m < topology.members.size(); ++m) {
    const FrameMember& member = topology.members[m];
    const Eigen::Vector3d axis = member.span.normalized();
    frame.struts.push_back({member.from, member.to, member.shift, share * reaches[m].from * axis,
                            -share * reaches[m].to * axis, 0.5 * diameter});
  }
  return frame;
}

StrutRates strut_rates(const HingedFrame& frame, const HingedStrut& strut) {
  const Eigen::Vector3d clear = frame.clear_span(strut);
  const double length = clear.norm();
  const Eigen::Vector3d axis = clear / length;
  const Eigen::Vector3d across = axis.unitOrthogonal();
  const Eigen::Vector3d other = axis.cross(across);
  const PlasticForces full = plastic_forces(strut.radius);
  // Columns: what each of the six forces means as a force through the strut and as a moment on the ends. The shear
  // force follows from the change of bending, F = axis × dM/ds.
  const double shear = full.bending / length;
  Eigen::Matrix<double, 3, 6> force;
  force << full.axial * axis, Eigen::Vector3d::Zero(), -shear * other, shear * across, shear * other, -shear * across;
  Eigen::Matrix<double, 3, 6> start = Eigen::Matrix<double, 3, 6>::Zero();
  Eigen::Matrix<double, 3, 6> end = Eigen::Matrix<double, 3, 6>::Zero();
  start.col(1) = end.col(1) = full.torque * axis;
  start.col(2) = end.col(4) = full.bending * across;
  start.col(3) = end.col(5) = full.bending * other;
  for (int k = 0; k < 6; ++k) {
    start.col(k) += strut.from_arm.cross(force.col(k));
    end.col(k) += strut.to_arm.cross(force.col(k));
  }
  const Eigen::Vector3d span = frame.span(strut);
  StrutRates rates;
  rates << -force.transpose(), -start.transpose(), force.transpose(), end.transpose(),
      Eigen::Matrix<double, 6, 6>::Zero();
  for (int k = 0; k < 6; ++k) {
    const Eigen::Vector3d f = force.col(k);
    rates(k, 12) = f[0] * span[0];
    rates(k, 13) = f[1] * span[1];
    rates(k, 14) = f[2] * span[2];
    rates(k, 15) = 0.5 * (f[1] * span[2] + f[2] * span[1]);
    rates(k, 16) = 0.5 * (f[0] * span[2] + f[2] * span[0]);
    rates(k, 17) = 0.5 * (f[0] * span[1] + f[1] * span[0]);
  }
  return rates;
}

} // namespace crushwright
