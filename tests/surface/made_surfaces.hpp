#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <vector>

/// Surfaces built from their definitions, closed and facing outward; lengths in metres. Tests and
/// scripts/make_surfaces share them. All shapes are invented.
namespace crushwright::made_surfaces {

using Place = std::array<double, 3>;
using Ring = std::vector<Place>;

/// Rings joined one to the next, each counter-clockwise against the way they follow one another, and closed at both
/// ends by fans to a point.
TriangleMesh capped_tube(const std::vector<Ring>& rings, const Place& start, const Place& end);

/// Rings joined one to the next, and the last to the first.
TriangleMesh endless_tube(const std::vector<Ring>& rings);

/// Poles on the x axis, `rings` circles of 2 × `rings` points between them.
TriangleMesh sphere(double radius, int rings);

/// Upright along x: a circle of the stated radius at x = 0, the apex at x = height; `rings` steps along it.
TriangleMesh cone(double radius, double height, int rings);

/// About the z axis, so that cuts across x show two circles, a ring, or one oval figure.
TriangleMesh torus(double radius, double tube_radius, int rings);

/// A tube about the curve (R + ρ cos 3s)(cos 2s, sin 2s), ρ sin 3s: it passes near itself and has no flat side.
struct KnotShape {
  double radius = 0.10;       ///< R [m]
  double swing = 0.04;        ///< ρ [m]
  double tube_radius = 0.015; ///< [m]
};
TriangleMesh knot(const KnotShape& shape, int rings, int points_around);
/// Of the curve, by a sum that converges faster than any power.
double knot_length(const KnotShape& shape);

/// A structure that stands beside an outlet in the car's middle: rounded rectangles that grow from tip to root, on a
/// centre line that bows outward.
struct TaperedConeShape {
  double length = 0.520;                             ///< along x; the tip is at 0 [m]
  std::array<double, 2> width{0.090, 0.150};         ///< tip, root [m]
  std::array<double, 2> height{0.110, 0.190};        ///< [m]
  std::array<double, 2> corner_radius{0.020, 0.030}; ///< [m]
  double root_offset = 0.220;                        ///< of the root's middle from the car's middle, along y [m]
  double bow = 0.035; ///< how far the tip's middle stands further out than the root's [m]
};
/// @param points_a_corner  points on each quarter circle
TriangleMesh tapered_cone(const TaperedConeShape& shape, int steps, int points_a_corner);

/// A box from the origin with a step cut out of one edge.
struct NotchedBoxShape {
  Place size{0.300, 0.120, 0.160};
  Place notch{0.100, 0.120, 0.060}; ///< at the far end along x, through along y, on top [m]
};
TriangleMesh notched_box(const NotchedBoxShape& shape);

TriangleMesh box(const Place& low, const Place& high);

/// Both in one mesh, not joined.
TriangleMesh together(TriangleMesh first, const TriangleMesh& second);
TriangleMesh moved(TriangleMesh mesh, const Place& by);
TriangleMesh scaled(TriangleMesh mesh, double factor);
TriangleMesh inside_out(TriangleMesh mesh);

} // namespace crushwright::made_surfaces
