#include "crushwright/errors.hpp"
#include "crushwright/lattice_body.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace crushwright {
namespace {

constexpr double in_the_end = 1e-6; // of the length: a triangle this near to the end plane is part of the end face

using Edge = std::pair<std::int32_t, std::int32_t>;

/// Moves the flat face at one end outward and closes the gap with a straight wall.
void push_out(TriangleMesh& mesh, double end, double tolerance, double by) {
  const auto in_end = [&](const std::array<std::int32_t, 3>& triangle) {
    return std::all_of(triangle.begin(), triangle.end(), [&](std::int32_t point) {
      return std::abs(mesh.points[std::size_t(point)][0] - end) <= tolerance;
    });
  };
  std::set<Edge> edges;
  std::map<std::int32_t, std::int32_t> moved;
  for (const auto& triangle : mesh.triangles) {
    if (!in_end(triangle))
      continue;
    for (std::size_t i = 0; i < 3; ++i)
      edges.emplace(triangle[i], triangle[(i + 1) % 3]);
  }
  const std::size_t old_triangles = mesh.triangles.size();
  for (const auto& [from, to] : edges)
    moved.emplace(from, 0);
  for (auto& [point, copy] : moved) {
    copy = static_cast<std::int32_t>(mesh.points.size());
    std::array<double, 3> place = mesh.points[std::size_t(point)];
    place[0] += by;
    mesh.points.push_back(place);
  }
  for (std::size_t i = 0; i < old_triangles; ++i)
    if (in_end(mesh.triangles[i]))
      for (std::int32_t& point : mesh.triangles[i])
        point = moved.at(point);
  for (const auto& [from, to] : edges)
    if (!edges.contains({to, from})) { // the rim: its other side is the body's wall
      mesh.triangles.push_back({from, to, moved.at(to)});
      mesh.triangles.push_back({from, moved.at(to), moved.at(from)});
    }
}

} // namespace

TriangleMesh lengthened(const TriangleMesh& mesh, double by) {
  if (mesh.triangles.empty() || !(by > 0 && std::isfinite(by)))
    throw OutOfDomain(fmt::format("a surface of {} triangles cannot be lengthened by {:g} m; expected triangles and "
                                  "more than 0",
                                  mesh.triangles.size(), by));
  double low = mesh.points[std::size_t(mesh.triangles[0][0])][0], high = low;
  for (const auto& triangle : mesh.triangles)
    for (const std::int32_t point : triangle) {
      low = std::min(low, mesh.points[std::size_t(point)][0]);
      high = std::max(high, mesh.points[std::size_t(point)][0]);
    }
  TriangleMesh longer = mesh;
  push_out(longer, low, in_the_end * (high - low), -by);
  push_out(longer, high, in_the_end * (high - low), by);
  return longer;
}

} // namespace crushwright
