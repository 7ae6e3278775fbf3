#include "crushwright/printability.hpp"
#include "printability/vector.hpp"

#include <algorithm>
#include <limits>

namespace crushwright {
namespace {

constexpr double same_cosine = 1e-9;

} // namespace

Overhang overhang_of(const TriangleMesh& surface, const BuildDirection& direction, double self_supporting_angle) {
  double lowest = std::numeric_limits<double>::infinity(), highest = -lowest;
  std::vector<double> height;
  height.reserve(surface.points.size());
  for (const auto& point : surface.points) {
    height.push_back(dot(point, direction));
    lowest = std::min(lowest, height.back());
    highest = std::max(highest, height.back());
  }
  const double on_platform = lowest + 1e-6 * (highest - lowest);
  const double flat = std::cos(self_supporting_angle) + same_cosine;
  Overhang overhang;
  for (const auto& triangle : surface.triangles) {
    const auto a = static_cast<std::size_t>(triangle[0]), b = static_cast<std::size_t>(triangle[1]),
               c = static_cast<std::size_t>(triangle[2]);
    const Vector normal = area_vector(surface.points[a], surface.points[b], surface.points[c]);
    const double area = norm(normal), upward = dot(normal, direction);
    overhang.whole += area;
    if (std::max({height[a], height[b], height[c]}) <= on_platform)
      overhang.on_platform += area;
    else if (-upward > area * flat)
      overhang.outside += area;
    if (upward > area * flat)
      overhang.inside += area;
  }
  return overhang;
}

} // namespace crushwright
