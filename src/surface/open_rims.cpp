#include "surface/open_rims.hpp"

#include "surface/mesh_edges.hpp"
#include "surface/mesh_refusal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace crushwright {
namespace {

/// Groups of points, each known by one of them.
class PointGroups {
public:
  std::int32_t group(std::int32_t point) {
    std::int32_t root = point;
    while (above(root) != root)
      root = above(root);
    while (above(point) != root) {
      const std::int32_t next = above(point);
      above_[point] = root;
      point = next;
    }
    return root;
  }
  void join(std::int32_t a, std::int32_t b) { above_[group(a)] = group(b); }

private:
  std::int32_t above(std::int32_t point) { return above_.emplace(point, point).first->second; }
  std::map<std::int32_t, std::int32_t> above_;
};

} // namespace

std::vector<OpenRim> open_rims(const TriangleMesh& mesh) {
  const std::vector<MeshEdge> open = edge_faults(mesh).open;
  PointGroups groups;
  for (const MeshEdge& edge : open)
    groups.join(edge[0], edge[1]);
  std::map<std::int32_t, OpenRim> rims;
  for (const MeshEdge& edge : open) {
    const auto& a = mesh.points[std::size_t(edge[0])];
    const auto& b = mesh.points[std::size_t(edge[1])];
    const double length = std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
    OpenRim& rim = rims[groups.group(edge[0])];
    ++rim.edges;
    rim.length += length;
    for (std::size_t axis = 0; axis < 3; ++axis)
      rim.middle[axis] += length * 0.5 * (a[axis] + b[axis]);
  }
  std::vector<OpenRim> found;
  for (auto& [group, rim] : rims) {
    for (double& coordinate : rim.middle)
      coordinate /= rim.length;
    found.push_back(rim);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const OpenRim& a, const OpenRim& b) { return a.length > b.length; });
  return found;
}

std::string words_on(const std::vector<OpenRim>& rims) {
  constexpr std::size_t most = 5;
  std::string words =
      rims.size() == 1 ? "the surface has a hole" : fmt::format("the surface has {} holes", rims.size());
  for (std::size_t i = 0; i < std::min(rims.size(), most); ++i)
    words += fmt::format("{} with a rim {:.4g} long ({} edges) about {}", i == 0 ? "" : ",", rims[i].length,
                         rims[i].edges, shown_place(rims[i].middle));
  if (rims.size() > most)
    words += fmt::format(", and {} smaller", rims.size() - most);
  return words + "; lengths in the file's own units";
}

} // namespace crushwright
