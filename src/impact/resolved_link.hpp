#pragma once
#include "crushwright/crush_curve.hpp"

#include <cstddef>
#include <vector>

namespace crushwright {

/// One layer as a link between two masses: loads along its polyline, unloads and reloads elastically, and takes
/// tension up to the force at which it would collapse. docs/method/resolved_impact.md.
class CrushLink {
public:
  /// @throws OutOfDomain when the layer has no strength, or neither an elastic stiffness nor a rise.
  CrushLink(const Layer& layer, double force_factor, double crush_factor);

  /// Takes the link to a shortening [m], positive in compression.
  void shorten_to(double shortening) {
    const double along = shortening - offset_;
    loading_ = along > return_along_;
    if (loading_)
      load_to(along);
    else
      unload_to(along);
  }
  double force() const { return force_; }
  /// Steepest slope that it can meet within this stretch of its polyline or the next [N/m].
  double stiffness() const { return stiffness_; }
  double elastic_stiffness() const { return elastic_stiffness_; }
  /// What it would give back [J].
  double stored() const { return 0.5 * force_ * force_ / unloading_slope_; }
  /// On its polyline, not on an elastic line.
  bool loading() const { return loading_; }
  bool collapsed() const { return return_along_ > collapse_along_; }
  /// Beyond the middle between the start of its collapse and its efficiency strain.
  bool half_used() const { return return_along_ > half_along_; }

private:
  void load_to(double along);
  void unload_to(double along);
  void add_point(double rise, double stretch);
  void meet_slopes();
  double slope_of(std::size_t segment) const {
    return (forces_[segment + 1] - forces_[segment]) / (alongs_[segment + 1] - alongs_[segment]);
  }

  std::vector<double> alongs_, forces_; ///< the polyline [m], [N]; the last slope goes on
  std::size_t segment_ = 0;
  double slope_ = 0; ///< of this segment
  double elastic_stiffness_ = 0, unloading_slope_ = 0, stiffness_ = 0;
  double collapse_along_ = 0, half_along_ = 0, tension_limit_ = 0;
  double return_along_ = 0, return_force_ = 0; ///< where the elastic line meets the polyline
  double offset_ = 0;                          ///< by which yielding in tension has pulled the polyline [m], <= 0
  double force_ = 0;
  bool loading_ = false;
};

} // namespace crushwright
