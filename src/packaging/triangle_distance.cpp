#include "packaging/triangle_distance.hpp"

#include "packaging/vectors.hpp"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <optional>
#include <utility>

namespace crushwright {

using namespace vectors;

namespace {

Place nearest_on_segment(const Place& from, const Place& to, const Place& point) {
  const Vector along = to - from;
  const double square = dot(along, along);
  if (!(square > 0))
    return from;
  return from + std::clamp(dot(point - from, along) / square, 0.0, 1.0) * along;
}

/// Least of the four ends against the other segment and, where it lies inside both, the common perpendicular.
NearestPair nearest_of_segments(const Place& p, const Place& q, const Place& r, const Place& s) {
  NearestPair best{std::numeric_limits<double>::infinity(), {}, {}};
  const auto hold = [&](const Place& a, const Place& b) {
    const double distance = length(a - b);
    if (distance < best.distance)
      best = {distance, a, b};
  };
  hold(p, nearest_on_segment(r, s, p));
  hold(q, nearest_on_segment(r, s, q));
  hold(nearest_on_segment(p, q, r), r);
  hold(nearest_on_segment(p, q, s), s);
  const Vector first = q - p, second = s - r, between = p - r;
  const double a = dot(first, first), b = dot(first, second), c = dot(second, second);
  const double determinant = a * c - b * b;
  if (determinant > 1e-14 * a * c) {
    const double d = dot(first, between), e = dot(second, between);
    const double along_first = (b * e - c * d) / determinant, along_second = (a * e - b * d) / determinant;
    if (along_first > 0 && along_first < 1 && along_second > 0 && along_second < 1)
      hold(p + along_first * first, r + along_second * second);
  }
  return best;
}

/// Part of the way from one place to another at which it passes through a triangle.
std::optional<double> passing(const Place& from, const Vector& direction, const Corners3& triangle) {
  const Vector first = triangle[1] - triangle[0], second = triangle[2] - triangle[0];
  const Vector across = cross(direction, second);
  const double determinant = dot(first, across);
  const double scale = length(first) * length(second) * length(direction);
  if (!(std::abs(determinant) > 1e-14 * scale))
    return std::nullopt;
  const Vector away = from - triangle[0];
  const double u = dot(away, across) / determinant;
  const Vector turned = cross(away, first);
  const double v = dot(direction, turned) / determinant;
  if (u < 0 || v < 0 || u + v > 1)
    return std::nullopt;
  return dot(second, turned) / determinant;
}

} // namespace

Place nearest_on(const Corners3& triangle, const Place& point) {
  const Vector first = triangle[1] - triangle[0], second = triangle[2] - triangle[0], away = point - triangle[0];
  const double a = dot(first, first), b = dot(first, second), c = dot(second, second);
  const double d = dot(first, away), e = dot(second, away);
  const double determinant = a * c - b * b;
  if (determinant > 1e-14 * a * c) {
    const double u = (c * d - b * e) / determinant, v = (a * e - b * d) / determinant;
    if (u >= 0 && v >= 0 && u + v <= 1)
      return triangle[0] + u * first + v * second;
  }
  Place best = nearest_on_segment(triangle[0], triangle[1], point);
  for (std::size_t i = 1; i < 3; ++i) {
    const Place other = nearest_on_segment(triangle[i], triangle[(i + 1) % 3], point);
    if (length(other - point) < length(best - point))
      best = other;
  }
  return best;
}

NearestPair nearest_of(const Corners3& first, const Corners3& second) {
  for (std::size_t i = 0; i < 3; ++i) {
    for (const auto& [edges, face] : {std::pair{&first, &second}, std::pair{&second, &first}}) {
      const Place& from = (*edges)[i];
      const Vector along = (*edges)[(i + 1) % 3] - from;
      const auto part = passing(from, along, *face);
      if (part && *part >= 0 && *part <= 1) {
        const Place common = from + *part * along;
        return {0, common, common};
      }
    }
  }
  NearestPair best{std::numeric_limits<double>::infinity(), {}, {}};
  const auto hold = [&](const NearestPair& pair) {
    if (pair.distance < best.distance)
      best = pair;
  };
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j)
      hold(nearest_of_segments(first[i], first[(i + 1) % 3], second[j], second[(j + 1) % 3]));
    const Place on_second = nearest_on(second, first[i]), on_first = nearest_on(first, second[i]);
    hold({length(on_second - first[i]), first[i], on_second});
    hold({length(on_first - second[i]), on_first, second[i]});
  }
  return best;
}

bool meets(const Place& from, const Place& direction, const Corners3& triangle) {
  const auto part = passing(from, direction, triangle);
  return part && *part > 0;
}

} // namespace crushwright
