#pragma once
#include <array>
#include <string>
#include <vector>

namespace crushwright {

enum class SectionShape { rectangle, rounded_rectangle, trapezoid, ellipse, polygon };

/// Outer outline of a structure at one station along its crush axis; lengths in metres.
struct Section {
  double station = 0; ///< 0 at the struck end, growing to the attachment [m]
  SectionShape shape = SectionShape::rectangle;
  double width = 0;         ///< along y [m]; of the lower side for a trapezoid
  double upper_width = 0;   ///< trapezoid only, which is symmetric about z [m]
  double height = 0;        ///< along z [m]
  double corner_radius = 0; ///< rounded rectangle only [m]
  /// Polygon only: (y, z) counter-clockwise [m], shape = (number of corners, 2).
  std::vector<std::array<double, 2>> corners;
  /// Shift of the outline's own origin in (y, z) [m]; that origin is the middle of width and height, for a polygon
  /// the origin of its corners.
  std::array<double, 2> centre{0, 0};
};

/// What the chain needs of one cross-section.
struct SectionProperties {
  double area = 0;              ///< inside the outer outline [m^2]
  double perimeter = 0;         ///< of the outer outline [m]
  int corner_count = 0;         ///< folding corners; 0 for a smooth outline
  double offset_term = 0;       ///< κ in A(t) = A - P t + κ t^2 for an outline moved inwards by t [-]
  double smallest_width = 0;    ///< smallest distance between parallel lines that hold the section [m]
  double corner_radius = 0;     ///< rounded rectangle: from this t on its inner corners are sharp [m]
  double sharp_corner_term = 0; ///< what a t beyond corner_radius adds, times (t - corner_radius)^2 [-]
  bool operator==(const SectionProperties&) const = default;
};

/// A named station range, for instance a replaceable tip.
struct Part {
  std::string id;
  double from = 0; ///< [m]
  double to = 0;   ///< [m]
};

/// The outer shape of one structure: sections of one shape, linear in between.
struct Envelope {
  std::vector<Section> sections; ///< stations strictly rising from 0; at least two
  std::vector<Part> parts;       ///< ranges that do not overlap; together they need not fill the length
  double length() const { return sections.back().station; }
};

/// Section between the given ones, every dimension linear in the station.
/// A station past an end by no more than rounding (1e-9 of the length) is taken as the end. Allocates only for
/// polygons.
/// @throws OutOfDomain when the station is outside [0, length].
Section section_at(const Envelope& envelope, double station);

/// Closed forms of docs/method/envelope.md. Allocates only for polygons.
/// @throws OutOfDomain when a dimension is not positive, the corner radius is over half the smaller side, or a
/// polygon has fewer than three corners or is not counter-clockwise.
SectionProperties properties_of(const Section& section);

/// Area inside the outline moved inwards by a thickness [m], >= 0; [m^2], 0 when nothing is left. Where it is exact
/// and where it is a lower bound: docs/method/envelope.md.
/// @throws OutOfDomain when the thickness is negative.
double area_inside(const SectionProperties& section, double thickness);

/// The outline as a closed polygon for drawing, counter-clockwise, centre included (first point not repeated); curves
/// with about `points` points on the curve, at least 12. shape = (number of points, 2) [m]
/// @throws OutOfDomain as properties_of.
std::vector<std::array<double, 2>> outline(const Section& section, std::size_t points = 72);

} // namespace crushwright
