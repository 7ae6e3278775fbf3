#pragma once
#include "crushwright/impact.hpp"

#include <cstddef>
#include <utility>
#include <vector>

namespace crushwright {

/// One element of a group, a structure or something in series with it, with the history of its own force and crush.
///
/// It shortens along its curve, and along a straight elastic line below the greatest crush it had. Something rigid
/// has a line so steep that what it stores does not count.
class ElementState {
public:
  explicit ElementState(const CrushCurve& curve);

  double crush() const { return crush_; }
  double force() const { return force_; }
  /// Slope of the force, shortening on or letting go [N/m].
  double slope(bool shortening) const;
  /// Whether the force falls while it shortens on.
  bool softens() const { return on_curve_ && curve_slope() < 0; }
  /// Shortening left on the present slope before the next point [m]; infinity where there is none.
  double room() const;
  /// Moves by a change of crush along a slope, at most `room` forward.
  void move(double change, double along_slope);
  /// Sits exactly on the next point: after a step that reached it.
  void arrive();

  double greatest_crush() const { return greatest_crush_; }
  double unloading_slope() const { return unloading_slope_; }
  /// What stays when the force goes [m].
  double lasting_crush() const { return unloading_slope_ > 0 ? crush_ - force_ / unloading_slope_ : crush_; }
  double work() const { return work_; } ///< done on it so far [J]
  double rigid_rise() const { return rigid_rise_; }

private:
  double curve_slope() const;
  void meet_slope();

  const CrushCurve* curve_;
  std::size_t segment_ = 0;
  double rigid_rise_ = 0; ///< shortening before a curve that starts with a force [m]
  bool on_curve_ = false;
  double crush_ = 0, force_ = 0;
  double return_crush_ = 0, return_force_ = 0; ///< where the elastic line meets the curve
  double greatest_crush_ = 0;
  double work_ = 0;
  double unloading_slope_ = 0;
};

/// A group on its way: every element's state, and how all of them follow a step.
class GroupState {
public:
  explicit GroupState(const Group& group);

  /// How everything changes with the step s: the shortening of the lines, or of a common element that gives way
  /// alone.
  struct Rates {
    double closing = 0;         ///< dδ/ds; at or below 0 the group would spring back
    double force = 0;           ///< dF/ds [N/m]
    std::vector<double> crush;  ///< per element, d crush / ds
    std::vector<double> slope;  ///< per element, d force / ds [N/m]
    double line_shortening = 0; ///< d (shortening of the lines) / ds
  };
  /// What ends a step.
  struct Event {
    double step = 0;            ///< s to it; infinity without one
    std::size_t element = none; ///< that reaches its next point
    std::size_t line = none;    ///< that is touched, or parts
  };
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  const Rates& rates(bool shortening);
  Event next_event(const Rates& rates, bool shortening) const;
  /// Takes a step along the rates, to an event where one is given.
  void advance(const Rates& rates, double step, const Event* event);

  /// Lets a line, or the whole group, spring back at once while the bodies stand where they are.
  void settle_snaps();

  double force() const;
  bool any_line_left() const;
  double released() const { return released_; }
  const std::vector<ElementState>& elements() const { return elements_; }
  const std::vector<bool>& touched() const { return touched_; }
  std::size_t structure_of(std::size_t line) const { return ranges_[line].second - 1; }

private:
  bool line_tangent(std::size_t line, bool shortening, double& stiffness);
  void snap_line(std::size_t line);
  double total_work() const;

  std::vector<ElementState> elements_; ///< line by line, its structure last; then the common ones
  std::vector<std::pair<std::size_t, std::size_t>> ranges_; ///< elements of each line
  std::size_t common_ = 0;                                  ///< first common element
  std::vector<double> staggers_;
  std::vector<bool> touched_, parted_;
  double shortening_ = 0; ///< of the lines [m]
  double released_ = 0;
  Rates rates_;
};

} // namespace crushwright
