#pragma once
#include "homogenisation/hinged_frame.hpp"
#include "homogenisation/section_curve.hpp"

#include <vector>

namespace crushwright {

struct LimitOptions {
  SectionYield yield = SectionYield::all;
  double gap = 0.005; ///< (upper − lower) / lower to stop at [-], > 0
  /// Begin with the tangent planes at the forces of collapse_mechanism, which closes the bounds in a round or two;
  /// off, the programme finds its own way in ten to twenty. Only with SectionYield::all.
  bool start_from_mechanism = true;
  /// Macroscopic strains that what lies around the frame leaves free, one a column, shears engineering; shape = (6,
  /// k), 1 <= k <= 6, independent. The stress is prescribed in these alone: whatever resists the others costs
  /// nothing.
  Eigen::Matrix<double, 6, Eigen::Dynamic> free_strains = Eigen::Matrix<double, 6, 6>::Identity();
};

/// Greatest multiple of a macroscopic stress that the frame carries, over the yield stress.
struct LimitLoad {
  double lower = 0; ///< forces in balance that no section's exact curve is exceeded by [-]
  double upper = 0; ///< greatest load under the tangent planes in use, which enclose the curves [-]
  int cuts = 0;     ///< tangent planes in use at the end
  int rounds = 0;
  std::vector<Eigen::Matrix<double, 6, 1>> forces; ///< of the struts at the lower load; shape = (number of struts)
};

/// Static theorem of limit analysis as a linear programme. All six parts of the macroscopic stress are prescribed,
/// unless options.free_strains says otherwise: multiple × `stress`, compression positive (docs/notation.md). Tangent
/// planes are added where a strut's forces leave the exact curve, until the bounds close.
/// @param stress  does work on the free strains
/// @throws std::runtime_error when the load is not limited, or the bounds do not close to options.gap.
LimitLoad limit_load(const HingedFrame& frame, const Voigt& stress, const LimitOptions& options = {});

/// Uniaxial compression along a direction, of size 1; plus `lateral` equally on both sides.
Voigt axial_stress(const Eigen::Vector3d& direction, double axial = 1, double lateral = 0);

} // namespace crushwright
