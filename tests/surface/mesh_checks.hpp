#pragma once
#include "crushwright/surface.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <utility>
#include <vector>

/// What tests ask of a mesh, by plain sums over its triangles and without the code under test.
namespace crushwright::mesh_checks {

using Point = std::array<double, 3>;

inline Point minus(const Point& a, const Point& b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}
inline Point cross(const Point& a, const Point& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
inline double dot(const Point& a, const Point& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
inline const Point& corner(const TriangleMesh& mesh, const std::array<std::int32_t, 3>& triangle, std::size_t i) {
  return mesh.points[std::size_t(triangle[i])];
}
inline Point area_vector(const TriangleMesh& mesh, const std::array<std::int32_t, 3>& t) {
  return cross(minus(corner(mesh, t, 1), corner(mesh, t, 0)), minus(corner(mesh, t, 2), corner(mesh, t, 0)));
}

/// By the divergence theorem, positive for a mesh that faces outward.
inline double volume(const TriangleMesh& mesh) {
  double sum = 0;
  for (const auto& t : mesh.triangles)
    sum += dot(corner(mesh, t, 0), area_vector(mesh, t)) / 6;
  return sum;
}

inline double area(const TriangleMesh& mesh) {
  double sum = 0;
  for (const auto& t : mesh.triangles)
    sum += 0.5 * std::sqrt(dot(area_vector(mesh, t), area_vector(mesh, t)));
  return sum;
}

/// Area without the triangles that lie in a face of a box.
inline double area_inside(const TriangleMesh& mesh, const Point& low, const Point& high) {
  double sum = 0;
  for (const auto& t : mesh.triangles) {
    bool cap = false;
    for (std::size_t axis = 0; axis < 3; ++axis)
      for (double face : {low[axis], high[axis]})
        cap = cap || (std::abs(corner(mesh, t, 0)[axis] - face) < 1e-12 &&
                      std::abs(corner(mesh, t, 1)[axis] - face) < 1e-12 &&
                      std::abs(corner(mesh, t, 2)[axis] - face) < 1e-12);
    if (!cap)
      sum += 0.5 * std::sqrt(dot(area_vector(mesh, t), area_vector(mesh, t)));
  }
  return sum;
}

/// Whether every edge has exactly two triangles, which run along it in opposite ways.
inline bool closed_and_oriented(const TriangleMesh& mesh) {
  std::vector<std::pair<std::int32_t, std::int32_t>> ways;
  ways.reserve(3 * mesh.triangles.size());
  for (const auto& t : mesh.triangles)
    for (std::size_t i = 0; i < 3; ++i)
      ways.emplace_back(t[i], t[(i + 1) % 3]);
  std::sort(ways.begin(), ways.end());
  if (std::adjacent_find(ways.begin(), ways.end()) != ways.end())
    return false;
  return std::all_of(ways.begin(), ways.end(), [&](const auto& way) {
    return std::binary_search(ways.begin(), ways.end(), std::pair(way.second, way.first));
  });
}

/// Points that no triangle uses.
inline std::size_t unused_points(const TriangleMesh& mesh) {
  std::vector<char> used(mesh.points.size(), 0);
  for (const auto& t : mesh.triangles)
    for (std::int32_t place : t)
      used[std::size_t(place)] = 1;
  return std::size_t(std::count(used.begin(), used.end(), 0));
}

/// Triangles in a plane, as sorted places in space, whichever way they face.
inline std::vector<std::array<Point, 3>> triangles_in_plane(const TriangleMesh& mesh, std::size_t axis, double at) {
  std::vector<std::array<Point, 3>> found;
  for (const auto& t : mesh.triangles) {
    std::array<Point, 3> places{corner(mesh, t, 0), corner(mesh, t, 1), corner(mesh, t, 2)};
    if (std::all_of(places.begin(), places.end(), [&](const Point& p) { return p[axis] == at; })) {
      std::sort(places.begin(), places.end());
      found.push_back(places);
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

} // namespace crushwright::mesh_checks
