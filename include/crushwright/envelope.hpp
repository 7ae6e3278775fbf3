#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <memory>
#include <string>
#include <vector>

namespace crushwright {

/// `sliced`: cut out of a closed surface.
enum class SectionShape { rectangle, rounded_rectangle, trapezoid, ellipse, polygon, sliced };

/// What the chain needs of one cross-section.
struct SectionProperties {
  double area = 0;              ///< inside the outer outline, holes of a sliced section left out [m^2]
  double perimeter = 0;         ///< of the outer outline; of a sliced section all loops, holes too [m]
  int corner_count = 0;         ///< folding corners; 0 for a smooth outline
  double offset_term = 0;       ///< κ in A(t) = A - P t + κ t^2 for an outline moved inwards by t [-]
  double smallest_width = 0;    ///< smallest distance between parallel lines that hold the section [m]
  double corner_radius = 0;     ///< rounded rectangle: from this t on its inner corners are sharp [m]
  double sharp_corner_term = 0; ///< what a t beyond corner_radius adds, times (t - corner_radius)^2 [-]
  bool operator==(const SectionProperties&) const = default;
};

/// What a plane cut out of a closed surface, measured once.
struct SlicedFigure {
  /// Closed loops in (y, z) [m], first point not repeated: outer ones counter-clockwise, holes clockwise, the largest
  /// first; of the nearest cut where the section lies between two.
  std::shared_ptr<const std::vector<std::vector<std::array<double, 2>>>> loops;
  SectionProperties properties;
  std::array<double, 2> centroid{0, 0}; ///< of the area, (y, z) [m]
};

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
  SlicedFigure figure = {}; ///< sliced only; width and height are then the extents of its loops, centre is 0
};

/// A named station range, for instance a replaceable tip.
struct Part {
  std::string id;
  double from = 0; ///< [m]
  double to = 0;   ///< [m]
};

/// From the axes of a CAD file to the structure's own frame: x the station, y to the left, z up.
/// A point p [m] of the file lies at axes · p + (shift, 0, 0).
struct FileAxes {
  std::array<std::array<double, 3>, 3> axes{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}; ///< rows: x, y, z in the file's axes
  double shift = 0; ///< puts the struck end at station 0 [m]
};

/// A file that was read beside the case.
struct GeometryFile {
  std::string name;                         ///< as the case writes it
  std::shared_ptr<const std::string> bytes; ///< as read, for the input hash
};

/// The outer shape of one structure: sections of one shape, linear in between.
struct Envelope {
  std::vector<Section> sections; ///< stations strictly rising from 0; at least two
  std::vector<Part> parts;       ///< ranges that do not overlap; together they need not fill the length
  /// The closed surface that the sections were cut from, in the structure's frame [m]; null when they were typed.
  std::shared_ptr<const TriangleMesh> surface = nullptr;
  FileAxes file_axes = {};                            ///< of the surface's file; none turned or shifted when typed
  std::shared_ptr<const GeometryFile> file = nullptr; ///< null when typed
  std::vector<std::string> notes = {};                ///< what reading and slicing the surface found
  double length() const { return sections.back().station; }
};

/// Section between the given ones, every dimension linear in the station; of a sliced section every property.
/// A station past an end by no more than rounding (1e-9 of the length) is taken as the end. Allocates only for
/// polygons.
/// @throws OutOfDomain when the station is outside [0, length].
Section section_at(const Envelope& envelope, double station);

/// Closed forms of docs/method/envelope.md; a sliced section's as measured. Allocates only for polygons.
/// @throws OutOfDomain when a dimension is not positive, the corner radius is over half the smaller side, or a
/// polygon has fewer than three corners or is not counter-clockwise.
SectionProperties properties_of(const Section& section);

/// Area inside the outline moved inwards by a thickness [m], >= 0; [m^2], 0 when nothing is left. Where it is exact
/// and where it is a lower bound: docs/method/envelope.md.
/// @throws OutOfDomain when the thickness is negative.
double area_inside(const SectionProperties& section, double thickness);

/// The outline as a closed polygon for drawing, counter-clockwise, centre included (first point not repeated); curves
/// with about `points` points on the curve, at least 12. Of a sliced section the largest loop, as it was cut.
/// shape = (number of points, 2) [m]
/// @throws OutOfDomain as properties_of.
std::vector<std::array<double, 2>> outline(const Section& section, std::size_t points = 72);

/// Centroid of a section's area, (y, z) [m]. Allocates but for sliced sections.
std::array<double, 2> centroid_of(const Section& section);

/// The line through the sections' centroids.
struct CentroidLine {
  std::vector<double> station;           ///< [m], rising; shape = (number of stations)
  std::vector<std::array<double, 2>> at; ///< (y, z) [m], as station
  double tilt = 0;                       ///< of the line from end to end against the crush axis [rad], 0 to π/2
  double steepest_tilt = 0;              ///< the greatest over any tenth of the length [rad]
  double steepest_station = 0;           ///< the middle of that tenth [m]
};
CentroidLine centroid_line(const Envelope& envelope);

/// Volume inside the outer surface, Simpson's rule over the cuts or the prismatoids between typed sections [m^3].
double volume_of(const Envelope& envelope);

/// The same body on the other side of a vertical plane: every y of the opposite sign.
Envelope mirrored(const Envelope& envelope);

/// The closed outer surface in the structure's frame [m], facing outward: as given, or laid through the outlines of
/// typed sections and closed by flat ends; curves with about `points` points around. A faceted curve lies inside the
/// true one: with 120 points it encloses at most 0.05 % less.
TriangleMesh surface_of(const Envelope& envelope, std::size_t points = 120);

} // namespace crushwright
