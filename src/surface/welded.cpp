#include "surface/welded.hpp"

#include "surface/polygon_triangles.hpp"

#include <bit>
#include <unordered_map>

namespace crushwright {
namespace {

using Point = std::array<double, 3>;

struct PointHash {
  std::size_t operator()(const Point& point) const {
    std::uint64_t sum = 0;
    for (double coordinate : point) {
      sum = (sum ^ std::bit_cast<std::uint64_t>(coordinate)) * 0x9E3779B97F4A7C15ULL;
      sum ^= sum >> 29;
    }
    return static_cast<std::size_t>(sum);
  }
};

/// Each place once, in the file's order.
class PointList {
public:
  explicit PointList(std::size_t expected) { places_.reserve(expected); }

  std::int32_t place_of(Point point) {
    for (double& coordinate : point)
      coordinate += 0.0; // -0 and 0 are one point
    const auto [found, fresh] = places_.emplace(point, static_cast<std::int32_t>(points.size()));
    if (fresh)
      points.push_back(point);
    return found->second;
  }

  std::vector<Point> points;

private:
  std::unordered_map<Point, std::int32_t, PointHash> places_;
};

} // namespace

WeldedMesh welded(const PolygonSoup& soup) {
  WeldedMesh result;
  PointList list(soup.points.size());
  std::vector<std::int32_t> place_of;
  for (const Point& point : soup.points)
    place_of.push_back(list.place_of(point));
  for (const auto& polygon : soup.polygons)
    for (const auto& [a, b, c] : polygon_triangles(soup.points, polygon)) {
      const std::array<std::int32_t, 3> triangle{place_of[a], place_of[b], place_of[c]};
      if (triangle[0] == triangle[1] || triangle[1] == triangle[2] || triangle[2] == triangle[0])
        ++result.dropped;
      else
        result.mesh.triangles.push_back(triangle);
    }
  result.mesh.points = std::move(list.points);
  return result;
}

} // namespace crushwright
