#include "envelope/outline_places.hpp"
#include "envelope/triangulation.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace crushwright {

namespace {

/// Faces between two stations are ruled but not plane where outlines turn or change their proportions; that many
/// pairs of steps over the length, each with one diagonal and the other, keep their triangles within 1e-4 in volume.
constexpr int pairs_over_length = 12;

/// One outline of the loft: for each place of it the point it uses; coincident places share a point.
using Ring = std::vector<std::int32_t>;

Ring add_ring(const Envelope& envelope, double station, std::size_t points, TriangleMesh& mesh) {
  const Section section = section_at(envelope, station);
  const Polygon places = outline_places(section, points);
  const double same = 1e-9 * envelope.length();
  Ring ring;
  ring.reserve(places.size());
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto coincides = [&](const Point& other) {
      return std::hypot(places[i][0] - other[0], places[i][1] - other[1]) < same;
    };
    if (i > 0 && coincides(places[i - 1]))
      ring.push_back(ring.back());
    else if (i + 1 == places.size() && coincides(places[0]))
      ring.push_back(ring.front());
    else {
      ring.push_back(static_cast<std::int32_t>(mesh.points.size()));
      mesh.points.push_back({station, places[i][0], places[i][1]});
    }
  }
  return ring;
}

void add_triangle(std::int32_t a, std::int32_t b, std::int32_t c, TriangleMesh& mesh) {
  if (a != b && b != c && c != a)
    mesh.triangles.push_back({a, b, c});
}

/// @param rising  which diagonal parts the faces: one way they lie inside a turning side, the other way outside.
void add_side(const Ring& nearer, const Ring& farther, bool rising, TriangleMesh& mesh) {
  const std::size_t count = nearer.size();
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t next = (i + 1) % count;
    add_triangle(nearer[i], nearer[next], rising ? farther[next] : farther[i], mesh);
    add_triangle(rising ? nearer[i] : nearer[next], farther[next], farther[i], mesh);
  }
}

/// Counter-clockwise in (y, z) faces along +x: outward at the attachment, inward at the struck end.
void add_end(Ring ring, bool attachment, TriangleMesh& mesh) {
  ring.erase(std::unique(ring.begin(), ring.end()), ring.end());
  if (ring.front() == ring.back())
    ring.pop_back();
  Polygon corners;
  corners.reserve(ring.size());
  for (const std::int32_t place : ring) {
    const auto& point = mesh.points[static_cast<std::size_t>(place)];
    corners.push_back({point[1], point[2]});
  }
  for (const auto& [a, b, c] : triangulation(corners)) {
    if (attachment)
      mesh.triangles.push_back({ring[a], ring[b], ring[c]});
    else
      mesh.triangles.push_back({ring[c], ring[b], ring[a]});
  }
}

/// Every typed station, and places between them.
std::vector<double> loft_stations(const Envelope& envelope) {
  std::vector<double> stations{0};
  for (std::size_t i = 1; i < envelope.sections.size(); ++i) {
    const double from = envelope.sections[i - 1].station, to = envelope.sections[i].station;
    const int steps =
        2 * std::max(1, static_cast<int>(std::ceil(pairs_over_length * (to - from) / envelope.length())));
    for (int step = 1; step <= steps; ++step)
      stations.push_back(from + (to - from) * step / steps);
  }
  return stations;
}

} // namespace

TriangleMesh surface_of(const Envelope& envelope, std::size_t points) {
  if (envelope.surface)
    return *envelope.surface;
  TriangleMesh mesh;
  const std::vector<double> stations = loft_stations(envelope);
  const Ring first = add_ring(envelope, stations.front(), points, mesh);
  add_end(first, false, mesh);
  Ring nearer = first;
  for (std::size_t i = 1; i < stations.size(); ++i) {
    Ring farther = add_ring(envelope, stations[i], points, mesh);
    add_side(nearer, farther, i % 2 == 0, mesh);
    nearer = std::move(farther);
  }
  add_end(nearer, true, mesh);
  return mesh;
}

} // namespace crushwright
