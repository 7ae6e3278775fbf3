#include "surface/mesh_edges.hpp"

#include <algorithm>
#include <tuple>

namespace crushwright {

std::vector<EdgeSide> edge_sides(const TriangleMesh& mesh) {
  std::vector<EdgeSide> sides;
  sides.reserve(3 * mesh.triangles.size());
  for (std::size_t triangle = 0; triangle < mesh.triangles.size(); ++triangle)
    for (std::size_t i = 0; i < 3; ++i) {
      const std::int32_t from = mesh.triangles[triangle][i], to = mesh.triangles[triangle][(i + 1) % 3];
      sides.push_back({std::min(from, to), std::max(from, to), static_cast<std::int32_t>(triangle), from > to});
    }
  std::sort(sides.begin(), sides.end(), [](const EdgeSide& a, const EdgeSide& b) {
    return std::tie(a.low, a.high, a.triangle) < std::tie(b.low, b.high, b.triangle);
  });
  return sides;
}

EdgeFaults edge_faults(const TriangleMesh& mesh) {
  EdgeFaults faults;
  const std::vector<EdgeSide> sides = edge_sides(mesh);
  for (std::size_t begin = 0, end = 0; begin < sides.size(); begin = end) {
    const MeshEdge edge{sides[begin].low, sides[begin].high};
    while (end < sides.size() && sides[end].low == edge[0] && sides[end].high == edge[1])
      ++end;
    if (end - begin == 1)
      faults.open.push_back(edge);
    else if (end - begin > 2)
      faults.crowded.push_back(edge);
    else if (sides[begin].backward == sides[begin + 1].backward)
      faults.turned.push_back(edge);
  }
  return faults;
}

std::array<double, 3> middle_of(const TriangleMesh& mesh, const MeshEdge& edge) {
  const auto& from = mesh.points[std::size_t(edge[0])];
  const auto& to = mesh.points[std::size_t(edge[1])];
  return {0.5 * (from[0] + to[0]), 0.5 * (from[1] + to[1]), 0.5 * (from[2] + to[2])};
}

} // namespace crushwright
