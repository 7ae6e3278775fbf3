#include "crushwright/envelope.hpp"

#include <algorithm>
#include <utility>

namespace crushwright {

namespace {

using Loop = std::vector<std::array<double, 2>>;

/// Mirroring turns the sense of rotation; reading backwards turns it again.
void mirror(Loop& loop) {
  for (auto& point : loop)
    point[0] = -point[0];
  std::reverse(loop.begin(), loop.end());
}

TriangleMesh mirrored(TriangleMesh mesh) {
  for (auto& point : mesh.points)
    point[1] = -point[1];
  for (auto& triangle : mesh.triangles)
    std::swap(triangle[1], triangle[2]);
  return mesh;
}

void mirror(Section& section) {
  section.centre[0] = -section.centre[0];
  mirror(section.corners);
  section.figure.centroid[0] = -section.figure.centroid[0];
  if (!section.figure.loops)
    return;
  std::vector<Loop> loops = *section.figure.loops;
  for (Loop& loop : loops)
    mirror(loop);
  section.figure.loops = std::make_shared<const std::vector<Loop>>(std::move(loops));
}

} // namespace

Envelope mirrored(const Envelope& envelope) {
  Envelope twin = envelope;
  for (Section& section : twin.sections)
    mirror(section);
  if (envelope.surface)
    twin.surface = std::make_shared<const TriangleMesh>(mirrored(*envelope.surface));
  for (double& component : twin.file_axes.axes[1])
    component = -component;
  twin.notes.clear(); // the original says it for both
  return twin;
}

} // namespace crushwright
