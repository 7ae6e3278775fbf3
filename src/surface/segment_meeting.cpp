#include "surface/segment_meeting.hpp"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Point = std::array<double, 3>;

/// Sine of the angle to the triangle's plane, times its slenderness: under it the place of a passage is rounding.
constexpr double flat = 1e-6;

Kernel::Point_3 exact(const Point& point) {
  return {point[0], point[1], point[2]};
}

Point difference(const Point& a, const Point& b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}

Point product(const Point& a, const Point& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

double dot(const Point& a, const Point& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/// The stretch of a segment between the planes through the triangle's edges, upright on it.
Meeting stretch_in(const std::array<Point, 3>& triangle, const Point& normal, const Point& from, const Point& to) {
  Meeting meeting{0, 1, std::nullopt};
  for (std::size_t i = 0; i < 3; ++i) {
    const Point inward = product(normal, difference(triangle[(i + 1) % 3], triangle[i]));
    const double room_from = dot(inward, difference(from, triangle[i]));
    const double room_to = dot(inward, difference(to, triangle[i]));
    if (room_from == room_to)
      continue;
    const double at = std::clamp(room_from / (room_from - room_to), 0.0, 1.0);
    if (room_from < room_to)
      meeting.begin = std::max(meeting.begin, at);
    else
      meeting.end = std::min(meeting.end, at);
  }
  meeting.end = std::max(meeting.begin, meeting.end);
  return meeting;
}

/// Strictly through the inside of the triangle; told exactly.
bool goes_through(const std::array<Point, 3>& triangle, const Point& from, const Point& to,
                  CGAL::Orientation from_side) {
  const auto a = exact(triangle[0]), b = exact(triangle[1]), c = exact(triangle[2]), p = exact(from), q = exact(to);
  if (from_side == CGAL::COPLANAR || CGAL::orientation(a, b, c, q) != -from_side)
    return false;
  const auto turn = CGAL::orientation(p, q, a, b);
  return turn != CGAL::COPLANAR && CGAL::orientation(p, q, b, c) == turn && CGAL::orientation(p, q, c, a) == turn;
}

} // namespace

Meeting meeting_of(const std::array<Point, 3>& triangle, const Point& from, const Point& to) {
  const Point first = difference(triangle[1], triangle[0]), second = difference(triangle[2], triangle[0]);
  const Point normal = product(first, second);
  const double height_from = dot(normal, difference(from, triangle[0]));
  const double height_to = dot(normal, difference(to, triangle[0]));
  const Point along = difference(to, from);
  const double scale = std::sqrt(dot(first, first) * dot(second, second) * dot(along, along));
  if (std::abs(height_from - height_to) <= flat * scale)
    return stretch_in(triangle, normal, from, to);
  const double at = std::clamp(height_from / (height_from - height_to), 0.0, 1.0);
  Meeting meeting{at, at, std::nullopt};
  const auto from_side = CGAL::orientation(exact(triangle[0]), exact(triangle[1]), exact(triangle[2]), exact(from));
  if (goes_through(triangle, from, to, from_side))
    meeting.passage = Passage{at, from_side == CGAL::POSITIVE ? 1 : -1};
  return meeting;
}

} // namespace crushwright
