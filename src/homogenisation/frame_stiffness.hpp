#pragma once
#include "crushwright/stiffness_matrix.hpp"
#include "homogenisation/beam.hpp"
#include "homogenisation/frame_topology.hpp"

#include <vector>

namespace crushwright {

/// A periodic frame as beams: one for each member of the topology, in its order.
struct BeamFrame {
  FrameTopology topology;
  RoundSection section;
  std::vector<Beam> beams;
};

/// Beams from node centre to node centre.
BeamFrame node_to_node_frame(const FrameTopology& topology, const RoundSection& section);

/// Beams whose ends are rigid inside the nodes. docs/method/frame.md has the rule and its comparison with solids.
BeamFrame stiff_node_frame(const FrameTopology& topology, const RoundSection& section);

/// The same from a cell of the catalogue.
/// @param size_ratio  strut diameter over cell edge [-], inside the cell's range
/// @throws OutOfDomain for a cell that is not of struts, a size outside its range or a Poisson's ratio outside (-1,
/// 0.5).
BeamFrame stiff_node_frame(const UnitCell& cell, double size_ratio, double poissons_ratio);

/// What a frame does under macroscopic strain.
struct FrameResponse {
  StiffnessMatrix stiffness; ///< over the metal's Young's modulus
  /// Motion of the nodes for each unit of macroscopic strain (Voigt, engineering shear): displacement, then rotation,
  /// node by node; node 0 does not shift. Shape = (6 number of nodes, 6) [cell edges] and [-].
  Eigen::Matrix<double, Eigen::Dynamic, 6> motion;
};

/// Symmetric macroscopic strain on one cell: the copy of a node one cell away moves by the strain more, and turns
/// alike; all else is free and finds its least energy.
FrameResponse frame_response(const BeamFrame& frame);

/// Motion of both ends of a member under a macroscopic strain, in the order of beam_stiffness(), shape = (12).
Vector12 member_motion(const FrameMember& member, const FrameResponse& response, const Voigt& strain);

} // namespace crushwright
