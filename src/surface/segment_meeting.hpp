#pragma once
#include <array>
#include <optional>

namespace crushwright {

/// Where a segment goes through a triangle: into the solid (+1) or out of it (-1).
struct Passage {
  double at = 0; ///< part of the segment's length
  int turn = 0;
};

/// How a segment meets a triangle. The passage is absent where it hits a corner or an edge, ends on the triangle, or
/// runs so flat that rounding decides; `begin` to `end` is then the stretch that lies in the triangle.
struct Meeting {
  double begin = 0;
  double end = 0;
  std::optional<Passage> passage;
};

/// @param triangle  counter-clockwise seen from outside, with an area; the segment meets it
Meeting meeting_of(const std::array<std::array<double, 3>, 3>& triangle, const std::array<double, 3>& from,
                   const std::array<double, 3>& to);

} // namespace crushwright
