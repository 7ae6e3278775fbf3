#pragma once
#include "crushwright/load_path.hpp"
#include "envelope/polygon.hpp"

#include <numbers>

namespace crushwright {

/// A face turned further than this is met by a corner, not by a surface [rad].
inline constexpr double steepest_face_angle = std::numbers::pi / 4;

/// A rectangle across the crush axis in the car's own y and z [m]; a side that is not bounded is infinite.
struct Window {
  double right, left; ///< smallest and largest y
  double bottom, top; ///< smallest and largest z
  bool reaches(const Window& inner) const {
    return right <= inner.right && inner.left <= left && bottom <= inner.bottom && inner.top <= top;
  }
};

/// What a face covers, seen along the crush axis: a face turned by an angle is narrower by its cosine.
Window window_of(const FaceInput& face);
/// The same of one block, in its own rectangle where it has one.
Window window_of(const FaceInput& face, const FaceBlock& block);

/// The part of one section that lies inside a window.
struct Bearing {
  double section_area = 0;  ///< of the whole section, holes left out [m^2]
  double share = 0;         ///< of it that lies inside [-]
  Point middle{0, 0};       ///< centroid of that part, of the whole where there is none, (y, z) in the car [m]
  Point whole_middle{0, 0}; ///< centroid of the whole section [m]; the same to the last digit where all lies inside
  Window extent{};          ///< of the whole section, in the car
  double area() const { return share * section_area; }
};

/// Bearing of a window on the section of a placed structure at a station. Curves are followed with 720 points.
/// @throws OutOfDomain when the station is outside the envelope.
Bearing bearing_on(const StructurePlace& structure, double station, const Window& window);

} // namespace crushwright
