#include "printability/build_fit.hpp"

#include <algorithm>
#include <limits>
#include <numbers>

namespace crushwright {
namespace {

using FlatPoint = std::array<double, 2>;

double turn(const FlatPoint& o, const FlatPoint& p, const FlatPoint& q) {
  return (p[0] - o[0]) * (q[1] - o[1]) - (p[1] - o[1]) * (q[0] - o[0]);
}

/// Corners of the smallest convex outline, counter-clockwise.
std::vector<FlatPoint> hull_of(std::vector<FlatPoint> points) {
  std::sort(points.begin(), points.end());
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 3)
    return points;
  std::vector<FlatPoint> hull;
  for (const int pass : {0, 1}) {
    const std::size_t begin = hull.size();
    for (const FlatPoint& point : points) {
      while (hull.size() >= begin + 2 && turn(hull[hull.size() - 2], hull.back(), point) <= 0)
        hull.pop_back();
      hull.push_back(point);
    }
    hull.pop_back();
    if (pass == 0)
      std::reverse(points.begin(), points.end());
  }
  return hull;
}

FlatPoint sides_when_turned(const std::vector<FlatPoint>& hull, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  FlatPoint low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  FlatPoint high{-low[0], -low[1]};
  for (const FlatPoint& point : hull) {
    const FlatPoint turned{c * point[0] - s * point[1], s * point[0] + c * point[1]};
    for (std::size_t i = 0; i < 2; ++i) {
      low[i] = std::min(low[i], turned[i]);
      high[i] = std::max(high[i], turned[i]);
    }
  }
  return {high[0] - low[0], high[1] - low[1]};
}

/// A part as long as the machine is taken to fit; lengths come through files and outlines with rounding.
constexpr double rounding = 1e-9;

bool fits_into(const FlatPoint& sides, const std::array<double, 3>& volume) {
  return sides[0] <= volume[0] * (1 + rounding) && sides[1] <= volume[1] * (1 + rounding);
}

/// A quick look: some two points are farther apart than the platform's corners.
bool fits_at_no_angle(const std::vector<FlatPoint>& hull, const std::array<double, 3>& volume) {
  const double diagonal = std::hypot(volume[0], volume[1]) * (1 + rounding);
  for (std::size_t i = 0; i < hull.size(); ++i)
    for (std::size_t k = i + 1; k < hull.size(); ++k)
      if (std::hypot(hull[i][0] - hull[k][0], hull[i][1] - hull[k][1]) > diagonal)
        return true;
  return false;
}

std::vector<double> angles_to_try(const std::vector<FlatPoint>& hull) {
  std::vector<double> angles{0, 0.5 * std::numbers::pi};
  for (std::size_t i = 0; i < hull.size(); ++i) {
    const FlatPoint& from = hull[i];
    const FlatPoint& to = hull[(i + 1) % hull.size()];
    const double along = -std::atan2(to[1] - from[1], to[0] - from[0]);
    angles.push_back(along);
    angles.push_back(along + 0.5 * std::numbers::pi);
  }
  for (int degree = 1; degree < 180; ++degree)
    angles.push_back(degree * std::numbers::pi / 180);
  return angles;
}

} // namespace

Placement placement_of(const std::vector<Vector>& points, const Vector& direction,
                       const std::optional<std::array<double, 3>>& build_volume) {
  const std::array<Vector, 2> horizontal = across(direction);
  std::vector<FlatPoint> flat;
  flat.reserve(points.size());
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const Vector& point : points) {
    flat.push_back({dot(point, horizontal[0]), dot(point, horizontal[1])});
    low = std::min(low, dot(point, direction));
    high = std::max(high, dot(point, direction));
  }
  const std::vector<FlatPoint> hull = hull_of(std::move(flat));
  Placement placement;
  placement.piece.height = high - low;
  placement.piece.footprint = sides_when_turned(hull, 0);
  if (!build_volume)
    return placement;
  placement.fits = false;
  if (placement.piece.height > (*build_volume)[2] * (1 + rounding) || fits_at_no_angle(hull, *build_volume))
    return placement;
  for (const double angle : angles_to_try(hull)) {
    const FlatPoint sides = sides_when_turned(hull, angle);
    if (!fits_into(sides, *build_volume))
      continue;
    placement.fits = true;
    placement.piece.footprint = sides;
    placement.piece.turned = std::remainder(angle, std::numbers::pi);
    break;
  }
  return placement;
}

namespace {

double area_of(const std::vector<FlatPoint>& hull) {
  double twice = 0;
  for (std::size_t i = 2; i < hull.size(); ++i)
    twice += turn(hull[0], hull[i - 1], hull[i]);
  return 0.5 * twice;
}

} // namespace

bool stands_on_base(const std::vector<Vector>& points, const Vector& direction) {
  const std::array<Vector, 2> horizontal = across(direction);
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const Vector& point : points) {
    low = std::min(low, dot(point, direction));
    high = std::max(high, dot(point, direction));
  }
  constexpr double touching = 1e-4, least_base = 0.1;
  std::vector<FlatPoint> all, base;
  for (const Vector& point : points) {
    all.push_back({dot(point, horizontal[0]), dot(point, horizontal[1])});
    if (dot(point, direction) <= low + touching * (high - low))
      base.push_back(all.back());
  }
  return area_of(hull_of(std::move(base))) >= least_base * area_of(hull_of(std::move(all)));
}

namespace {

/// Where an edge crosses a station, if it does.
void add_crossing(const Vector& a, const Vector& b, double station, std::vector<Vector>& points) {
  if ((a[0] < station) == (b[0] < station))
    return;
  const double part = (station - a[0]) / (b[0] - a[0]);
  points.push_back({station, a[1] + part * (b[1] - a[1]), a[2] + part * (b[2] - a[2])});
}

/// Corners of the surface between two stations, and where its edges cross them.
std::vector<Vector> points_between(const TriangleMesh& surface, double from, double to) {
  std::vector<Vector> points;
  for (const Vector& point : surface.points)
    if (point[0] >= from && point[0] <= to)
      points.push_back(point);
  for (const auto& triangle : surface.triangles)
    for (std::size_t i = 0; i < 3; ++i) {
      const std::int32_t a = triangle[i], b = triangle[(i + 1) % 3];
      if (a > b)
        continue; // its neighbour has the same edge the other way round
      for (const double station : {from, to})
        add_crossing(surface.points[static_cast<std::size_t>(a)], surface.points[static_cast<std::size_t>(b)],
                     station, points);
    }
  return points;
}

} // namespace

std::vector<BuildPiece> pieces_that_fit(const Envelope& envelope, const TriangleMesh& surface,
                                        const Vector& direction,
                                        const std::optional<std::array<double, 3>>& build_volume, int most) {
  const double length = envelope.length();
  Placement whole = placement_of(surface.points, direction, build_volume);
  whole.piece.to = length;
  if (whole.fits)
    return {whole.piece};
  for (int count = 2; count <= most; ++count) {
    std::vector<BuildPiece> pieces;
    for (int i = 0; i < count; ++i) {
      const double from = length * i / count, to = length * (i + 1) / count;
      Placement placement = placement_of(points_between(surface, from, to), direction, build_volume);
      if (!placement.fits)
        break;
      placement.piece.from = from;
      placement.piece.to = to;
      pieces.push_back(placement.piece);
    }
    if (static_cast<int>(pieces.size()) == count)
      return pieces;
  }
  return {};
}

} // namespace crushwright
