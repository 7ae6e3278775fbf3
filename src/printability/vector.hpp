#pragma once
#include <array>
#include <cmath>
#include <cstddef>

namespace crushwright {

using Vector = std::array<double, 3>;

inline double dot(const Vector& a, const Vector& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

inline Vector cross(const Vector& a, const Vector& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

inline Vector minus(const Vector& a, const Vector& b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}

inline Vector scaled(const Vector& a, double factor) {
  return {a[0] * factor, a[1] * factor, a[2] * factor};
}

inline double norm(const Vector& a) {
  return std::sqrt(dot(a, a));
}

/// A triangle's area vector: its normal by the right-hand rule, as long as its area.
inline Vector area_vector(const Vector& a, const Vector& b, const Vector& c) {
  return scaled(cross(minus(b, a), minus(c, a)), 0.5);
}

/// Two unit vectors across a unit vector; along the axes where the vector is an axis itself.
inline std::array<Vector, 2> across(const Vector& direction) {
  std::size_t steepest = 0;
  for (std::size_t i = 1; i < 3; ++i)
    if (std::abs(direction[i]) > std::abs(direction[steepest]) + 1e-12)
      steepest = i;
  Vector first{0, 0, 0};
  first[(steepest + 1) % 3] = 1;
  const double along = dot(first, direction);
  for (std::size_t i = 0; i < 3; ++i)
    first[i] -= along * direction[i];
  first = scaled(first, 1 / norm(first));
  return {first, cross(direction, first)};
}

} // namespace crushwright
