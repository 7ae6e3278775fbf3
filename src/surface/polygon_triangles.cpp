#include "surface/polygon_triangles.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Flat = std::array<double, 2>;

double turn(const Flat& a, const Flat& b, const Flat& c) {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/// Seen along the axis nearest to its normal, counter-clockwise.
std::vector<Flat> seen_flat(const std::vector<std::array<double, 3>>& points,
                            const std::vector<std::size_t>& polygon) {
  std::array<double, 3> normal{};
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const auto& a = points[polygon[i]];
    const auto& b = points[polygon[(i + 1) % polygon.size()]];
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const std::size_t next = (axis + 1) % 3, last = (axis + 2) % 3;
      normal[axis] += (a[next] - b[next]) * (a[last] + b[last]);
    }
  }
  std::size_t view = 0;
  for (std::size_t axis = 1; axis < 3; ++axis)
    if (std::abs(normal[axis]) > std::abs(normal[view]))
      view = axis;
  const double side = normal[view] < 0 ? -1 : 1;
  std::vector<Flat> flat;
  for (std::size_t corner : polygon)
    flat.push_back({side * points[corner][(view + 1) % 3], points[corner][(view + 2) % 3]});
  return flat;
}

bool is_ear(const std::vector<Flat>& flat, const std::vector<std::size_t>& left, std::size_t at) {
  const std::size_t count = left.size(), before = (at + count - 1) % count, after = (at + 1) % count;
  const Flat &a = flat[left[before]], &b = flat[left[at]], &c = flat[left[after]];
  if (!(turn(a, b, c) > 0))
    return false;
  for (std::size_t i = 0; i < count; ++i) {
    const Flat& p = flat[left[i]];
    if (i == before || i == at || i == after || p == a || p == b || p == c)
      continue;
    if (turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0)
      return false;
  }
  return true;
}

} // namespace

std::vector<std::array<std::size_t, 3>> polygon_triangles(const std::vector<std::array<double, 3>>& points,
                                                          const std::vector<std::size_t>& polygon) {
  std::vector<std::array<std::size_t, 3>> triangles;
  if (polygon.size() < 3)
    return triangles;
  std::vector<std::size_t> left(polygon.size());
  for (std::size_t i = 0; i < left.size(); ++i)
    left[i] = i;
  if (polygon.size() > 3) {
    const std::vector<Flat> flat = seen_flat(points, polygon);
    const std::size_t count = polygon.size();
    const bool one_way = std::none_of(left.begin(), left.end(), [&](std::size_t i) {
      return turn(flat[i], flat[(i + 1) % count], flat[(i + 2) % count]) < 0;
    });
    while (!one_way && left.size() > 3) {
      std::size_t at = 0;
      while (at < left.size() && !is_ear(flat, left, at))
        ++at;
      if (at == left.size())
        break; // it crosses itself; the check of the whole surface says so
      const std::size_t size = left.size();
      triangles.push_back({polygon[left[(at + size - 1) % size]], polygon[left[at]], polygon[left[(at + 1) % size]]});
      left.erase(left.begin() + static_cast<std::ptrdiff_t>(at));
    }
  }
  for (std::size_t i = 1; i + 1 < left.size(); ++i)
    triangles.push_back({polygon[left[0]], polygon[left[i]], polygon[left[i + 1]]});
  return triangles;
}

} // namespace crushwright
