#include "surface/clipped.hpp"

namespace crushwright {

SurfacePolygon clipped(const SurfacePolygon& polygon, std::size_t axis, double bound, bool above) {
  SurfacePolygon kept;
  const auto room = [&](const std::array<double, 3>& point) {
    return above ? point[axis] - bound : bound - point[axis];
  };
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const auto& here = polygon[i];
    const auto& next = polygon[(i + 1) % polygon.size()];
    const double room_here = room(here), room_next = room(next);
    if (room_here >= 0)
      kept.push_back(here);
    if ((room_here > 0 && room_next < 0) || (room_here < 0 && room_next > 0)) {
      const double part = room_here / (room_here - room_next);
      std::array<double, 3> cut{};
      for (std::size_t k = 0; k < 3; ++k)
        cut[k] = here[k] + part * (next[k] - here[k]);
      cut[axis] = bound;
      kept.push_back(cut);
    }
  }
  if (kept.size() < 3)
    kept.clear();
  return kept;
}

SurfacePolygon triangle_of(const TriangleMesh& mesh, std::size_t place) {
  SurfacePolygon polygon;
  for (std::int32_t corner : mesh.triangles[place])
    polygon.push_back(mesh.points[std::size_t(corner)]);
  return polygon;
}

} // namespace crushwright
