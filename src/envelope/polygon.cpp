#include "envelope/polygon.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace crushwright {

namespace {

/// Twice the area of the triangle o, p, q; positive when it turns counter-clockwise.
double turn(const Point& o, const Point& p, const Point& q) {
  return (p[0] - o[0]) * (q[1] - o[1]) - (p[1] - o[1]) * (q[0] - o[0]);
}

double distance(const Point& p, const Point& q) {
  return std::hypot(q[0] - p[0], q[1] - p[1]);
}

/// The half of the hull below (or, for points in falling order, above) the points.
void add_half_hull(const Polygon& ordered, Polygon& hull) {
  const std::size_t begin = hull.size();
  for (const Point& point : ordered) {
    while (hull.size() >= begin + 2 && turn(hull[hull.size() - 2], hull.back(), point) <= 0)
      hull.pop_back();
    hull.push_back(point);
  }
  hull.pop_back(); // the other half begins with it
}

Polygon convex_hull(Polygon points) {
  std::sort(points.begin(), points.end());
  Polygon hull;
  hull.reserve(points.size() + 1);
  add_half_hull(points, hull);
  std::reverse(points.begin(), points.end());
  add_half_hull(points, hull);
  return hull;
}

bool lies_between(const Point& point, const Point& p, const Point& q) {
  return std::min(p[0], q[0]) <= point[0] && point[0] <= std::max(p[0], q[0]) && std::min(p[1], q[1]) <= point[1] &&
         point[1] <= std::max(p[1], q[1]);
}

int sign(double value) {
  return (value > 0) - (value < 0);
}

bool edges_meet(const Point& p0, const Point& p1, const Point& q0, const Point& q1) {
  const int side_q0 = sign(turn(p0, p1, q0));
  const int side_q1 = sign(turn(p0, p1, q1));
  const int side_p0 = sign(turn(q0, q1, p0));
  const int side_p1 = sign(turn(q0, q1, p1));
  if (side_q0 != side_q1 && side_p0 != side_p1)
    return true;
  return (side_q0 == 0 && lies_between(q0, p0, p1)) || (side_q1 == 0 && lies_between(q1, p0, p1)) ||
         (side_p0 == 0 && lies_between(p0, q0, q1)) || (side_p1 == 0 && lies_between(p1, q0, q1));
}

/// The outline goes back on itself at a corner.
bool folds_back(const Point& before, const Point& corner, const Point& after) {
  const double along =
      (corner[0] - before[0]) * (after[0] - corner[0]) + (corner[1] - before[1]) * (after[1] - corner[1]);
  return turn(before, corner, after) == 0 && along <= 0;
}

} // namespace

double signed_area(const Polygon& polygon) {
  double twice = 0;
  for (std::size_t i = 1; i + 1 < polygon.size(); ++i)
    twice += turn(polygon[0], polygon[i], polygon[i + 1]);
  return twice / 2;
}

Point centroid(const Polygon& polygon) {
  Point sum{0, 0}, mean{0, 0};
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    mean[0] += polygon[i][0] / static_cast<double>(polygon.size());
    mean[1] += polygon[i][1] / static_cast<double>(polygon.size());
  }
  // About the mean of the corners, so that a small figure far from the origin keeps its digits.
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point& p = polygon[i];
    const Point& q = polygon[(i + 1) % polygon.size()];
    const double part = turn(mean, p, q);
    twice += part;
    sum[0] += part * (p[0] + q[0] - 2 * mean[0]) / 3;
    sum[1] += part * (p[1] + q[1] - 2 * mean[1]) / 3;
  }
  if (!(std::abs(twice) > 0))
    return mean;
  return {mean[0] + sum[0] / twice, mean[1] + sum[1] / twice};
}

double smallest_width(const Polygon& polygon) {
  const Polygon hull = convex_hull(polygon);
  double smallest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < hull.size(); ++i) {
    const Point& from = hull[i];
    const Point& to = hull[(i + 1) % hull.size()];
    double farthest = 0;
    for (const Point& corner : hull)
      farthest = std::max(farthest, turn(from, to, corner));
    smallest = std::min(smallest, farthest / distance(from, to));
  }
  return smallest;
}

bool crosses_itself(const Polygon& polygon) {
  const std::size_t count = polygon.size();
  for (std::size_t i = 0; i < count; ++i) {
    if (folds_back(polygon[(i + count - 1) % count], polygon[i], polygon[(i + 1) % count]))
      return true;
    for (std::size_t j = i + 2; j < count; ++j) {
      const bool neighbours = i == 0 && j + 1 == count;
      if (!neighbours && edges_meet(polygon[i], polygon[i + 1], polygon[j], polygon[(j + 1) % count]))
        return true;
    }
  }
  return false;
}

} // namespace crushwright
