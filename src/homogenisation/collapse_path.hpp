#pragma once
#include "homogenisation/hinged_frame.hpp"

#include <vector>

namespace crushwright {

/// Crushing of a frame with its mechanism followed, rigid-plastic, sides free.
struct CollapsePath {
  std::vector<double> strain;       ///< engineering, on the initial height, from 0 to the end [-]
  std::vector<double> stress;       ///< on the initial area, over the yield stress [-]
  double mean_stress = 0;           ///< work over initial volume and last strain, over the yield stress [-]
  double greatest_gap = 0;          ///< of upper over lower bound on the way, less 1 [-]
  double greatest_length_error = 0; ///< of a strut against its first length and plastic stretch, over its length [-]
};

struct PathOptions {
  double end = 0.5;          ///< last strain [-], > 0
  double step = 0.01;        ///< greatest step of strain [-], > 0
  double largest_turn = 0.1; ///< greatest turn of a hinge in a step [rad], > 0
  /// Mean bow of the struts' middles off their lines, over the clear span [-], >= 0; a prior. docs/method/
  /// limit_analysis.md has the reason and what it does.
  double waviness = 0.02;
};

/// A copy in which every strut has a middle that can yield, off the line by `waviness` × clear span, a quarter more
/// or less from strut to strut: towards the
/// crush direction for struts across and aslant, to one side for struts along it.
HingedFrame with_middles(const HingedFrame& frame, const Eigen::Vector3d& direction, double waviness);

/// Sequential limit analysis: nodes, period and struts move with the least-work mechanism of their own present
/// geometry. The planes across the direction stay across it, as between platens, and may slide along themselves. A
/// strut keeps its volume when it yields along its axis.
/// @param frame  undeformed, without middles
/// The path ends before options.end where the frame is so deformed that no mechanism is found any more.
/// @throws NoMechanism when that happens before a strain of 0.1.
CollapsePath collapse_path(const HingedFrame& frame, const Eigen::Vector3d& direction,
                           const PathOptions& options = {});

} // namespace crushwright
