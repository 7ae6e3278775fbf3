#include "envelope/triangulation.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <utility>

namespace crushwright {

namespace {

double turn(const Point& o, const Point& p, const Point& q) {
  return (p[0] - o[0]) * (q[1] - o[1]) - (p[1] - o[1]) * (q[0] - o[0]);
}

bool holds(const Point& a, const Point& b, const Point& c, const Point& point) {
  return turn(a, b, point) >= 0 && turn(b, c, point) >= 0 && turn(c, a, point) >= 0;
}

double square(double value) {
  return value * value;
}

/// How well shaped a triangle is, twice its area over its longest side squared; an ear that is a needle comes last.
double shape_of(const Point& a, const Point& b, const Point& c) {
  double longest = 0;
  for (const auto& [p, q] : {std::pair{&a, &b}, std::pair{&b, &c}, std::pair{&c, &a}})
    longest = std::max(longest, square((*q)[0] - (*p)[0]) + square((*q)[1] - (*p)[1]));
  return turn(a, b, c) / longest;
}

/// The corner to cut off next: of all whose triangle holds no other corner the best shaped one.
std::size_t best_ear(const Polygon& polygon, const std::vector<std::size_t>& left) {
  const std::size_t count = left.size();
  std::size_t best = 0;
  double best_shape = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t before = left[(i + count - 1) % count], here = left[i], after = left[(i + 1) % count];
    const double shape = shape_of(polygon[before], polygon[here], polygon[after]);
    if (shape <= best_shape)
      continue;
    bool empty = true;
    for (const std::size_t other : left)
      empty = empty && (other == before || other == here || other == after ||
                        !holds(polygon[before], polygon[here], polygon[after], polygon[other]));
    if (empty || shape <= 0) {
      best = i;
      best_shape = shape;
    }
  }
  return best;
}

} // namespace

std::vector<std::array<std::size_t, 3>> triangulation(const Polygon& polygon) {
  std::vector<std::size_t> left(polygon.size());
  std::iota(left.begin(), left.end(), std::size_t{0});
  std::vector<std::array<std::size_t, 3>> triangles;
  triangles.reserve(polygon.size());
  while (left.size() > 3) {
    const std::size_t ear = best_ear(polygon, left), count = left.size();
    triangles.push_back({left[(ear + count - 1) % count], left[ear], left[(ear + 1) % count]});
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(ear));
  }
  triangles.push_back({left[0], left[1], left[2]});
  return triangles;
}

} // namespace crushwright
