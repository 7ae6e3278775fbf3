#pragma once
#include <array>

namespace crushwright {

using Place = std::array<double, 3>;   ///< [m]
using Corners3 = std::array<Place, 3>; ///< of a triangle

/// The two nearest places of two figures.
struct NearestPair {
  double distance = 0;
  Place on_first{};
  Place on_second{};
};

/// Nearest place of a triangle to a point.
Place nearest_on(const Corners3& triangle, const Place& point);

/// Of two triangles; 0 at a common place when they cut each other or touch.
NearestPair nearest_of(const Corners3& first, const Corners3& second);

/// Whether a ray meets a triangle, on its way in its direction.
bool meets(const Place& from, const Place& direction, const Corners3& triangle);

} // namespace crushwright
