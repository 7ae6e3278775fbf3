#pragma once
#include "review_pack/cell_view.hpp"

#include <array>
#include <optional>
#include <utility>

namespace crushwright {

/// A bar of round section, its radius linear from end to end, with a half ball at each end; seen along the third
/// axis. Lengths in any one unit; docs/method/pictures.md.
class RoundBar {
public:
  struct Hit {
    double depth = 0;              ///< along the third axis
    std::array<float, 3> normal{}; ///< out of the metal, unit vector
    bool cut = false;              ///< the ray starts inside the bar
  };

  /// @param from, to  ends of its axis; the eye is at the far positive end of the third axis.  Radii > 0.
  RoundBar(const ViewVector& from, const ViewVector& to, double from_radius, double to_radius);

  /// Where the ray through (x, y), which starts at a limit of depth and runs towards lesser depth, meets the bar.
  std::optional<Hit> nearest(double x, double y, double limit) const;

  double top() const;    ///< least second coordinate
  double bottom() const; ///< greatest second coordinate
  double front() const;  ///< greatest third coordinate
  /// Bounds of the first coordinate that the bar's shadow stays within at a second coordinate.
  std::pair<double, double> reach_across(double y) const;

private:
  ViewVector from_, to_, along_{}; ///< ends and unit vector of the axis
  double length_ = 0, from_radius_, to_radius_, slope_ = 0;

  std::optional<Hit> nearest_on_cone(double x, double y, double limit) const;
  std::optional<Hit> nearest_on_ball(const ViewVector& centre, double radius, double x, double y, double limit) const;
};

} // namespace crushwright
