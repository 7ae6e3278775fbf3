#include "surface/surface_shells.hpp"

#include "surface/surface_probe.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

/// Its own points only.
TriangleMesh with_own_points(const TriangleMesh& mesh, const std::vector<std::size_t>& triangles) {
  TriangleMesh own;
  std::vector<std::pair<std::int32_t, std::int32_t>> places; // in the whole, in the own
  for (std::size_t triangle : triangles)
    for (std::int32_t corner : mesh.triangles[triangle])
      places.emplace_back(corner, 0);
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  for (auto& [whole, place] : places) {
    place = static_cast<std::int32_t>(own.points.size());
    own.points.push_back(mesh.points[std::size_t(whole)]);
  }
  for (std::size_t triangle : triangles) {
    std::array<std::int32_t, 3> corners = mesh.triangles[triangle];
    for (std::int32_t& corner : corners)
      corner = std::lower_bound(places.begin(), places.end(), std::pair{corner, std::int32_t{0}})->second;
    own.triangles.push_back(corners);
  }
  return own;
}

bool boxes_nest(const TriangleMesh& inner, const TriangleMesh& outer) {
  const SurfaceBounds in = bounds_of(inner), out = bounds_of(outer);
  for (std::size_t axis = 0; axis < 3; ++axis)
    if (in.low[axis] < out.low[axis] || in.high[axis] > out.high[axis])
      return false;
  return true;
}

/// A point of a shell that lies on no other, because the surface does not cross itself.
std::array<double, 3> point_of(const TriangleMesh& mesh) {
  std::array<double, 3> middle{};
  for (std::int32_t corner : mesh.triangles.front())
    for (std::size_t axis = 0; axis < 3; ++axis)
      middle[axis] += mesh.points[std::size_t(corner)][axis] / 3;
  return middle;
}

} // namespace

std::vector<Shell> shells_of(const TriangleMesh& mesh, const AlignedShells& aligned) {
  std::vector<std::vector<std::size_t>> triangles(aligned.count);
  for (std::size_t triangle = 0; triangle < aligned.shell_of.size(); ++triangle)
    triangles[aligned.shell_of[triangle]].push_back(triangle);
  std::vector<Shell> shells;
  for (const auto& own : triangles) {
    Shell shell{with_own_points(mesh, own), 0, {}, 0};
    shell.volume = volume_of(shell.mesh);
    const SurfaceBounds bounds = bounds_of(shell.mesh);
    for (std::size_t axis = 0; axis < 3; ++axis)
      shell.middle[axis] = 0.5 * (bounds.low[axis] + bounds.high[axis]);
    shells.push_back(std::move(shell));
  }
  std::stable_sort(shells.begin(), shells.end(),
                   [](const Shell& a, const Shell& b) { return std::abs(a.volume) > std::abs(b.volume); });
  for (std::size_t outer = 0; outer + 1 < shells.size(); ++outer) {
    const SurfaceProbe probe(shells[outer].mesh);
    for (std::size_t inner = outer + 1; inner < shells.size(); ++inner)
      if (boxes_nest(shells[inner].mesh, shells[outer].mesh) && probe.inside(point_of(shells[inner].mesh)))
        ++shells[inner].inside_of;
  }
  return shells;
}

} // namespace crushwright
