#include "load_path/bearing.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace crushwright {
namespace {

constexpr double unbounded = std::numeric_limits<double>::infinity();
constexpr std::size_t points_around = 720; // the share of an ellipse is then good to 1.3e-5
constexpr std::size_t few_points = 12;     // enough for the extent and the centroid of a whole one: both are exact

/// Outer loops counter-clockwise, holes clockwise, in the car's y and z.
std::vector<Polygon> loops_of(const Section& section, const StructurePlace& structure, std::size_t points) {
  std::vector<Polygon> loops =
      section.shape == SectionShape::sliced ? *section.figure.loops : std::vector<Polygon>{outline(section, points)};
  for (Polygon& loop : loops)
    for (Point& point : loop) {
      point[0] += structure.lateral;
      point[1] += structure.vertical;
    }
  return loops;
}

/// What of a polygon lies at sign * (coordinate - bound) >= 0. Where a polygon that is not convex falls apart, the
/// pieces stay joined along the cut, which holds no area.
Polygon cut(const Polygon& polygon, std::size_t axis, double bound, double sign) {
  if (!std::isfinite(bound))
    return polygon;
  Polygon kept;
  kept.reserve(polygon.size() + 4);
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point& here = polygon[i];
    const Point& next = polygon[(i + 1) % polygon.size()];
    const double inside_here = sign * (here[axis] - bound), inside_next = sign * (next[axis] - bound);
    if (inside_here >= 0)
      kept.push_back(here);
    if ((inside_here > 0 && inside_next < 0) || (inside_here < 0 && inside_next > 0)) {
      const double part = inside_here / (inside_here - inside_next);
      Point at{here[0] + part * (next[0] - here[0]), here[1] + part * (next[1] - here[1])};
      at[axis] = bound;
      kept.push_back(at);
    }
  }
  return kept;
}

Polygon clipped(Polygon polygon, const Window& window) {
  polygon = cut(polygon, 0, window.right, 1);
  polygon = cut(polygon, 0, window.left, -1);
  polygon = cut(polygon, 1, window.bottom, 1);
  return cut(polygon, 1, window.top, -1);
}

Window extent_of(const std::vector<Polygon>& loops) {
  Window extent{unbounded, -unbounded, unbounded, -unbounded};
  for (const Polygon& loop : loops)
    for (const Point& point : loop) {
      extent.right = std::min(extent.right, point[0]);
      extent.left = std::max(extent.left, point[0]);
      extent.bottom = std::min(extent.bottom, point[1]);
      extent.top = std::max(extent.top, point[1]);
    }
  return extent;
}

struct Measured {
  double area = 0;
  Point middle{0, 0};
};

Measured measured(const std::vector<Polygon>& loops) {
  Measured sum;
  for (const Polygon& loop : loops) {
    if (loop.size() < 3)
      continue;
    const double area = signed_area(loop);
    const Point middle = centroid(loop);
    sum.area += area;
    sum.middle[0] += area * middle[0];
    sum.middle[1] += area * middle[1];
  }
  if (sum.area > 0)
    sum.middle = {sum.middle[0] / sum.area, sum.middle[1] / sum.area};
  return sum;
}

Window across(double middle, double width, double bottom, double height) {
  return {middle - width / 2, middle + width / 2, bottom, height > 0 ? bottom + height : unbounded};
}

} // namespace

Window window_of(const FaceInput& face) {
  switch (face.shape) {
  case FaceShape::wall:
    break;
  case FaceShape::pole:
    return {face.lateral.value - face.width.value / 2, face.lateral.value + face.width.value / 2, -unbounded,
            unbounded};
  case FaceShape::flat:
    return across(face.lateral.value, face.width.value * std::cos(face.angle.value), face.lower_edge.value,
                  face.height.value);
  }
  return {-unbounded, unbounded, -unbounded, unbounded};
}

Window window_of(const FaceInput& face, const FaceBlock& block) {
  return across(block.lateral.value_or(face.lateral).value,
                block.width.value_or(face.width).value * std::cos(face.angle.value),
                block.lower_edge.value_or(face.lower_edge).value, block.height.value_or(face.height).value);
}

Bearing bearing_on(const StructurePlace& structure, double station, const Window& window) {
  const Section section = section_at(*structure.envelope, station);
  std::vector<Polygon> loops = loops_of(section, structure, few_points);
  Bearing bearing;
  bearing.section_area = properties_of(section).area;
  bearing.extent = extent_of(loops);
  bearing.middle = bearing.whole_middle = measured(loops).middle;
  if (window.reaches(bearing.extent)) {
    bearing.share = 1;
    return bearing;
  }
  loops = loops_of(section, structure, points_around);
  const Measured whole = measured(loops);
  for (Polygon& loop : loops)
    loop = clipped(std::move(loop), window);
  const Measured inside = measured(loops);
  constexpr double rounding = 1e-12; // of the area: a window that only touches the section covers nothing
  bearing.share = inside.area > rounding * whole.area ? std::min(1.0, inside.area / whole.area) : 0;
  if (bearing.share > 0)
    bearing.middle = inside.middle;
  return bearing;
}

} // namespace crushwright
