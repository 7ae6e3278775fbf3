#pragma once
#include "homogenisation/hinged_frame.hpp"

#include <stdexcept>
#include <vector>

namespace crushwright {

/// How a frame moves when it collapses under a macroscopic stress, at unit work of that stress per volume: for
/// uniaxial compression of size 1, at unit strain along the direction.
struct CollapseMechanism {
  std::vector<Eigen::Vector3d> velocity; ///< of the nodes beyond the even strain [a]; shape = (number of nodes)
  std::vector<Eigen::Vector3d> spin;     ///< of the nodes [rad]; shape = (number of nodes)
  Voigt strain;                          ///< of the period, stretch positive [-]
  std::vector<double> stretch;           ///< lengthening of each strut [a]; shape = (number of struts)
  /// Forces of the struts in balance at the lower load, as LimitLoad::forces; shape = (number of struts)
  std::vector<Eigen::Matrix<double, 6, 1>> forces;
  double upper = 0;        ///< work in the hinges over the volume, over the yield stress: an upper bound [-]
  double lower = 0;        ///< a load with forces in balance inside the yield surfaces: a lower bound [-]
  double fastest_turn = 0; ///< greatest turn of a hinge [rad]
  int iterations = 0;
};

/// No mechanism was found: a frame that every motion leaves free, or one so deformed that its numbers run away.
class NoMechanism : public std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct MechanismOptions {
  double gap = 0.005; ///< (upper − lower) / lower to stop at [-], > 0; not promised within the iterations
  int most_iterations = 80;
};

/// Kinematic theorem of limit analysis: of all motions of the nodes at unit work of `stress`, the one of least work
/// in the hinges. Where several take the same work, the one that spreads it most evenly, as metal that is a little
/// rate-sensitive does: for a symmetric cell a symmetric one.
/// @param stress  all six parts, in proportion; compression positive (docs/notation.md)
/// @throws NoMechanism
CollapseMechanism collapse_mechanism(const HingedFrame& frame, const Voigt& stress,
                                     const MechanismOptions& options = {});

} // namespace crushwright
