#pragma once
#include "crushwright/unit_cell.hpp"

#include <Eigen/Core>

#include <vector>

namespace crushwright {

/// A member of a periodic frame, from one node of the cell to another node's copy `shift` cells away.
struct FrameMember {
  int from = 0;
  int to = 0;            ///< may be the same node: a member that reaches its own copy
  Eigen::Vector3i shift; ///< whole cells
  Eigen::Vector3d span;  ///< node centre to node centre [cell edges]
};

/// One cell of a periodic frame: nodes folded into [0, 1)³, each member once.
struct FrameTopology {
  std::vector<Eigen::Vector3d> nodes; ///< [cell edges]
  std::vector<FrameMember> members;
};

/// Folds struts into a periodic frame. Struts that meet within their length are joined there: a strut's end on
/// another strut, or two that cross, make a node. Copies of one strut count once; collinear struts that overlap are
/// one.
/// @throws OutOfDomain when the frame does not hang together in one piece through its periodic copies, or does not
///         reach its own copy in all three directions; the message says which.
FrameTopology frame_topology(const std::vector<Strut>& struts);

/// How far a node reaches along the two ends of a member: from its centre to where the bar leaves the others there
/// [cell edges].
struct NodeReach {
  double from = 0;
  double to = 0;
};

/// The farthest contact of two round bars of one diameter that leave a node at an angle θ is (d/2) / tan(θ/2) from
/// its centre; of all neighbours the sharpest angle counts. A straight continuation (θ = π) reaches nothing. Held to
/// 0.45 of the member's length at each end.
/// @param diameter  [cell edges], > 0
/// @return          shape = (number of members)
std::vector<NodeReach> node_reaches(const FrameTopology& topology, double diameter);

} // namespace crushwright
