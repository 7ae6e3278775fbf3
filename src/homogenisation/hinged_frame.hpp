#pragma once
#include "crushwright/stiffness_matrix.hpp"
#include "homogenisation/frame_topology.hpp"

#include <Eigen/Core>
#include <Eigen/LU>

#include <cmath>
#include <vector>

namespace crushwright {

/// A strut between two stiff nodes. It can yield at both ends of its clear span only; between them it is straight.
struct HingedStrut {
  int from = 0;
  int to = 0;                                         ///< may be the same node
  Eigen::Vector3i shift = Eigen::Vector3i::Zero();    ///< whole periods to the copy of `to`
  Eigen::Vector3d from_arm = Eigen::Vector3d::Zero(); ///< centre of node `from` to the end of the clear span [a]
  Eigen::Vector3d to_arm = Eigen::Vector3d::Zero();   ///< the same at node `to`
  double radius = 0;                                  ///< [a]
};

/// One period of a frame of such struts; lengths in cell edges a.
struct HingedFrame {
  std::vector<Eigen::Vector3d> nodes;
  Eigen::Matrix3d periods = Eigen::Matrix3d::Identity(); ///< column k: how far copies lie apart
  std::vector<HingedStrut> struts;
  /// Nodes that are joints. The rest, if any, are middles: then strut k of the cell is struts 2k and 2k + 1 here, and
  /// its middle is node joints + k.
  int joints = 0;

  bool has_middles() const { return static_cast<int>(nodes.size()) > joints; }
  double volume() const { return std::abs(periods.determinant()); }
  Eigen::Vector3d span(const HingedStrut& strut) const;       ///< centre to centre
  Eigen::Vector3d clear_span(const HingedStrut& strut) const; ///< hinge to hinge
};

/// Share of the node's reach at which hinges stand, for all cells. docs/method/limit_analysis.md tells how it was
/// found.
inline constexpr double hinge_share_of_reach = 1.0;

/// The frame of a cell with hinges at a share of the nodes' reach; 0 puts them at the centres.
HingedFrame hinged_frame(const FrameTopology& topology, double diameter, double share = hinge_share_of_reach);

/// Forces of a strut are s = (N/Np, T/Tp, then bending over Mp about two axes across the strut: at end `from` m1, m2,
/// at end `to` m1, m2), shape = (6). Its first section sees entries 0, 1, 2, 3 and its second 0, 1, 4, 5. Bending is
/// linear in between. Rates conjugate to them follow from the velocities of the nodes and the strain rate of the
/// period: rates = A q, q = (v, ω of `from`; v, ω of `to`; strain xx, yy, zz, yz, xz, xy), shape = (18). Velocities
/// are those beyond the even strain. Tension and stretch are positive here.
using StrutRates = Eigen::Matrix<double, 6, 18>;
StrutRates strut_rates(const HingedFrame& frame, const HingedStrut& strut);

} // namespace crushwright
