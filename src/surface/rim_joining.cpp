#include "surface/mesh_edges.hpp"
#include "surface/mesh_repair.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace crushwright {
namespace {

using Point = std::array<double, 3>;

double distance(const Point& a, const Point& b) {
  return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/// Points of open edges, each once, by x.
std::vector<std::int32_t> rim_points(const TriangleMesh& mesh) {
  std::vector<std::int32_t> places;
  for (const MeshEdge& edge : edge_faults(mesh).open)
    places.insert(places.end(), edge.begin(), edge.end());
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  std::stable_sort(places.begin(), places.end(), [&](std::int32_t a, std::int32_t b) {
    return mesh.points[std::size_t(a)][0] < mesh.points[std::size_t(b)][0];
  });
  return places;
}

} // namespace

std::size_t join_rims(TriangleMesh& mesh, double reach) {
  const std::vector<std::int32_t> places = rim_points(mesh);
  std::vector<std::int32_t> stands_for(mesh.points.size());
  std::iota(stands_for.begin(), stands_for.end(), 0);
  std::size_t joined = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Point& here = mesh.points[std::size_t(places[i])];
    if (stands_for[std::size_t(places[i])] != places[i])
      continue;
    for (std::size_t k = i + 1; k < places.size(); ++k) {
      const Point& there = mesh.points[std::size_t(places[k])];
      if (there[0] - here[0] > reach)
        break;
      std::int32_t& other = stands_for[std::size_t(places[k])];
      if (other == places[k] && distance(here, there) <= reach) {
        other = places[i];
        ++joined;
      }
    }
  }
  if (joined == 0)
    return 0;
  std::vector<std::array<std::int32_t, 3>> kept;
  for (auto triangle : mesh.triangles) {
    for (std::int32_t& corner : triangle)
      corner = stands_for[std::size_t(corner)];
    if (triangle[0] != triangle[1] && triangle[1] != triangle[2] && triangle[2] != triangle[0])
      kept.push_back(triangle);
  }
  mesh.triangles = std::move(kept);
  return joined;
}

} // namespace crushwright
