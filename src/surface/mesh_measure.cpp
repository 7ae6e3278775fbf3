#include "crushwright/surface.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Point = std::array<double, 3>;

/// Corners of one triangle, from the first point of the mesh: far from the origin volumes would lose digits
/// otherwise.
std::array<Point, 3> corners_near_origin(const TriangleMesh& mesh, const std::array<std::int32_t, 3>& triangle) {
  std::array<Point, 3> corners{};
  const Point& origin = mesh.points.front();
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t axis = 0; axis < 3; ++axis)
      corners[i][axis] = mesh.points[std::size_t(triangle[i])][axis] - origin[axis];
  return corners;
}

/// Twice the area, along the normal.
Point area_vector(const std::array<Point, 3>& corners) {
  Point first{}, second{};
  for (std::size_t axis = 0; axis < 3; ++axis) {
    first[axis] = corners[1][axis] - corners[0][axis];
    second[axis] = corners[2][axis] - corners[0][axis];
  }
  return {first[1] * second[2] - first[2] * second[1], first[2] * second[0] - first[0] * second[2],
          first[0] * second[1] - first[1] * second[0]};
}

double dot(const Point& a, const Point& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

} // namespace

double area_of(const TriangleMesh& mesh) {
  double twice = 0;
  for (const auto& triangle : mesh.triangles) {
    const Point normal = area_vector(corners_near_origin(mesh, triangle));
    twice += std::sqrt(dot(normal, normal));
  }
  return twice / 2;
}

double volume_of(const TriangleMesh& mesh) {
  double six_volumes = 0;
  for (const auto& triangle : mesh.triangles) {
    const auto corners = corners_near_origin(mesh, triangle);
    six_volumes += dot(corners[0], area_vector(corners));
  }
  return six_volumes / 6;
}

SurfaceBounds bounds_of(const TriangleMesh& mesh) {
  if (mesh.points.empty())
    return {};
  SurfaceBounds bounds{mesh.points.front(), mesh.points.front()};
  for (const Point& point : mesh.points)
    for (std::size_t axis = 0; axis < 3; ++axis) {
      bounds.low[axis] = std::min(bounds.low[axis], point[axis]);
      bounds.high[axis] = std::max(bounds.high[axis], point[axis]);
    }
  return bounds;
}

} // namespace crushwright
