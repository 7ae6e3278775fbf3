#include "homogenisation/frame_stiffness.hpp"

#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace crushwright {

namespace {

using Matrix12x6 = Eigen::Matrix<double, 12, 6>;

/// Displacement of a copy `shift` cells away over that of the node itself, for each unit of strain. Shape = (3, 6).
Eigen::Matrix<double, 3, 6> strained(const Eigen::Vector3i& shift) {
  const Eigen::Vector3d s = shift.cast<double>();
  Eigen::Matrix<double, 3, 6> displacement;
  displacement << s[0], 0, 0, 0, s[2] / 2, s[1] / 2, //
      0, s[1], 0, s[2] / 2, 0, s[0] / 2,             //
      0, 0, s[2], s[1] / 2, s[0] / 2, 0;
  return displacement;
}

/// Motion of a member's ends that the strain alone gives, for each unit of it.
Matrix12x6 strain_motion(const FrameMember& member) {
  Matrix12x6 motion = Matrix12x6::Zero();
  motion.middleRows<3>(6) = strained(member.shift);
  return motion;
}

/// Energy of the frame as a quadratic form in node motions and strain.
struct FrameMatrices {
  Eigen::MatrixXd nodes;  ///< shape = (6 nodes, 6 nodes)
  Eigen::MatrixXd mixed;  ///< shape = (6 nodes, 6)
  StiffnessMatrix strain; ///< shape = (6, 6)
};

/// A member from a node to its own copy adds its four blocks to one place, which is what its motion calls for.
FrameMatrices assembled(const BeamFrame& frame) {
  const auto unknowns = 6 * static_cast<Eigen::Index>(frame.topology.nodes.size());
  FrameMatrices matrices{Eigen::MatrixXd::Zero(unknowns, unknowns), Eigen::MatrixXd::Zero(unknowns, 6),
                         StiffnessMatrix::Zero()};
  for (std::size_t place = 0; place < frame.beams.size(); ++place) {
    const FrameMember& member = frame.topology.members[place];
    const Matrix12 stiffness = beam_stiffness(frame.beams[place], frame.section);
    const Matrix12x6 by_strain = strain_motion(member);
    const Matrix12x6 force = stiffness * by_strain;
    const Eigen::Index start[2] = {6 * member.from, 6 * member.to};
    for (int row = 0; row < 2; ++row) {
      for (int column = 0; column < 2; ++column) {
        matrices.nodes.block<6, 6>(start[row], start[column]) += stiffness.block<6, 6>(6 * row, 6 * column);
      }
      matrices.mixed.middleRows<6>(start[row]) += force.middleRows<6>(6 * row);
    }
    matrices.strain += by_strain.transpose() * force;
  }
  return matrices;
}

/// How far a bar's end lies inside the other bars of its node.
struct BarExit {
  double mean = 0;         ///< of the exits of all fibres around the bar [cell edges]
  Eigen::Matrix3d bending; ///< t · bending · t: mean exit with the weight that fibres have in bending along t
};

/// The fibre of a round bar along e, on the side w of its axis, leaves another bar of the same diameter along f at
/// (d/2) (w · f) / (1 - e · f) from the node; the last of them counts.
BarExit bar_exit(const Eigen::Vector3d& along, const std::vector<Eigen::Vector3d>& others, double radius,
                 double farthest) {
  const Eigen::Vector3d side = along.unitOrthogonal();
  const Eigen::Vector3d up = along.cross(side);
  // The exit is smooth but for a few kinks: the mean over 240 fibres is good to 1e-4.
  const int fibres = 240;
  BarExit exit{0, Eigen::Matrix3d::Zero()};
  for (int fibre = 0; fibre < fibres; ++fibre) {
    const double angle = 2 * std::numbers::pi * (fibre + 0.5) / fibres;
    const Eigen::Vector3d place = std::cos(angle) * side + std::sin(angle) * up;
    double reach = 0;
    for (const Eigen::Vector3d& other : others) {
      reach = std::max(reach, radius * place.dot(other) / std::max(1 - along.dot(other), 1e-6));
    }
    reach = std::min(reach, farthest);
    exit.mean += reach / fibres;
    exit.bending += 2 * reach / fibres * place * place.transpose();
  }
  return exit;
}

/// Of both ends of each member in turn. Shape = (2 number of members).
std::vector<BarExit> bar_exits(const FrameTopology& topology, double diameter) {
  std::vector<std::vector<Eigen::Vector3d>> leaving(topology.nodes.size());
  for (const FrameMember& member : topology.members) {
    leaving[static_cast<std::size_t>(member.from)].push_back(member.span.normalized());
    leaving[static_cast<std::size_t>(member.to)].push_back(-member.span.normalized());
  }
  std::vector<BarExit> exits;
  for (const FrameMember& member : topology.members) {
    const Eigen::Vector3d along = member.span.normalized();
    // The bar itself is among those that leave; it stands across none of its own fibres.
    const double farthest = 0.45 * member.span.norm();
    exits.push_back(bar_exit(along, leaving[static_cast<std::size_t>(member.from)], diameter / 2, farthest));
    exits.push_back(bar_exit(-along, leaving[static_cast<std::size_t>(member.to)], diameter / 2, farthest));
  }
  return exits;
}

/// The direction across the bar along which its ends are stiffest in bending.
Eigen::Vector3d principal_side(const Eigen::Vector3d& along, const Eigen::Matrix3d& bending) {
  const Eigen::Vector3d side = along.unitOrthogonal();
  const Eigen::Vector3d up = along.cross(side);
  const double angle = 0.5 * std::atan2(2 * side.dot(bending * up), side.dot(bending * side) - up.dot(bending * up));
  return std::cos(angle) * side + std::sin(angle) * up;
}

// Parts of a fibre's way through the node that count as rigid; one pair for all cells. docs/method/frame.md.
const double axial_part = 0.4;
const double bending_part = 0.8;

StiffEnd stiff_end(const Beam& beam, const BarExit& exit) {
  const Eigen::Vector3d up = beam.span.normalized().cross(beam.side);
  return {axial_part * exit.mean, bending_part * beam.side.dot(exit.bending * beam.side),
          bending_part * up.dot(exit.bending * up)};
}

void require_poissons_ratio(double poissons_ratio) {
  if (!(poissons_ratio > -1 && poissons_ratio < 0.5)) {
    throw OutOfDomain(fmt::format("Poisson's ratio {:g} of the metal is outside -1 to 0.5", poissons_ratio));
  }
}

} // namespace

BeamFrame node_to_node_frame(const FrameTopology& topology, const RoundSection& section) {
  require_poissons_ratio(section.poissons_ratio);
  BeamFrame frame{topology, section, {}};
  for (const FrameMember& member : topology.members) {
    frame.beams.push_back({member.span, member.span.unitOrthogonal(), {}, {}});
  }
  return frame;
}

BeamFrame stiff_node_frame(const FrameTopology& topology, const RoundSection& section) {
  BeamFrame frame = node_to_node_frame(topology, section);
  const std::vector<BarExit> exits = bar_exits(topology, section.diameter);
  for (std::size_t place = 0; place < frame.beams.size(); ++place) {
    Beam& beam = frame.beams[place];
    const BarExit& first = exits[2 * place];
    const BarExit& second = exits[2 * place + 1];
    beam.side = principal_side(beam.span.normalized(), first.bending + second.bending);
    beam.from = stiff_end(beam, first);
    beam.to = stiff_end(beam, second);
  }
  return frame;
}

FrameResponse frame_response(const BeamFrame& frame) {
  const FrameMatrices matrices = assembled(frame);
  const Eigen::Index unknowns = matrices.nodes.rows();
  FrameResponse response;
  response.motion.setZero(unknowns, 6);
  // Node 0 does not shift. Joints are rigid and the frame hangs together, so that nothing else is left loose.
  const Eigen::Index free = unknowns - 3;
  response.motion.bottomRows(free) =
      -matrices.nodes.bottomRightCorner(free, free).ldlt().solve(matrices.mixed.bottomRows(free));
  const StiffnessMatrix stiffness = matrices.strain + matrices.mixed.transpose() * response.motion;
  response.stiffness = 0.5 * (stiffness + stiffness.transpose());
  return response;
}

Vector12 member_motion(const FrameMember& member, const FrameResponse& response, const Voigt& strain) {
  Vector12 motion;
  motion.head<6>() = response.motion.middleRows<6>(6 * member.from) * strain;
  motion.tail<6>() = response.motion.middleRows<6>(6 * member.to) * strain;
  return motion + strain_motion(member) * strain;
}

BeamFrame stiff_node_frame(const UnitCell& cell, double size_ratio, double poissons_ratio) {
  if (cell.cell_class != CellClass::strut) {
    throw OutOfDomain(fmt::format("{} is not a cell of struts: a frame cannot stand for it.", cell.name));
  }
  relative_density(cell, size_ratio); // refuses a size outside the cell's range
  return stiff_node_frame(frame_topology(cell.struts), {size_ratio, poissons_ratio, true});
}

FrameStiffness frame_stiffness(const UnitCell& cell, double size_ratio, double poissons_ratio) {
  const BeamFrame frame = stiff_node_frame(cell, size_ratio, poissons_ratio);
  FrameStiffness result;
  result.size_ratio = size_ratio;
  result.relative_density = relative_density(cell, size_ratio);
  result.over_youngs_modulus = frame_response(frame).stiffness;
  result.node_to_node = frame_response(node_to_node_frame(frame.topology, frame.section)).stiffness;
  return result;
}

} // namespace crushwright
