#include "surface/made_surfaces.hpp"

#include <cmath>
#include <numbers>
#include <utility>

namespace crushwright::made_surfaces {
namespace {

constexpr double pi = std::numbers::pi;

std::int32_t number(std::size_t count) {
  return static_cast<std::int32_t>(count);
}

void add_walls(TriangleMesh& mesh, std::int32_t ring, std::int32_t next_ring, std::int32_t points) {
  for (std::int32_t i = 0; i < points; ++i) {
    const std::int32_t j = (i + 1) % points;
    mesh.triangles.push_back({ring + i, ring + j, next_ring + j});
    mesh.triangles.push_back({ring + i, next_ring + j, next_ring + i});
  }
}

TriangleMesh open_tube(const std::vector<Ring>& rings) {
  TriangleMesh mesh;
  const std::int32_t points = number(rings.front().size());
  for (std::size_t i = 0; i < rings.size(); ++i) {
    mesh.points.insert(mesh.points.end(), rings[i].begin(), rings[i].end());
    if (i + 1 < rings.size())
      add_walls(mesh, number(i) * points, number(i + 1) * points, points);
  }
  return mesh;
}

Ring circle_about_x(double x, double radius, int points) {
  Ring ring;
  for (int i = 0; i < points; ++i) {
    const double angle = 2 * pi * i / points;
    ring.push_back({x, radius * std::cos(angle), radius * std::sin(angle)});
  }
  return ring;
}

Place sum(const Place& a, const Place& b, double factor = 1) {
  return {a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2]};
}

double size_of(const Place& a) {
  return std::sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2]);
}

Place cross(const Place& a, const Place& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

Place unit(const Place& a) {
  const double size = size_of(a);
  return {a[0] / size, a[1] / size, a[2] / size};
}

Place knot_tangent(const KnotShape& shape, double s) {
  const double reach = shape.radius + shape.swing * std::cos(3 * s), change = -3 * shape.swing * std::sin(3 * s);
  return {change * std::cos(2 * s) - 2 * reach * std::sin(2 * s),
          change * std::sin(2 * s) + 2 * reach * std::cos(2 * s), 3 * shape.swing * std::cos(3 * s)};
}

/// A rounded rectangle, counter-clockwise in (y, z), about its own middle.
Ring rounded_rectangle(double x, double width, double height, double radius, double middle_y, int points_a_corner) {
  Ring ring;
  for (int corner = 0; corner < 4; ++corner) {
    const double y = (corner == 0 || corner == 3 ? 1 : -1) * (0.5 * width - radius);
    const double z = (corner < 2 ? 1 : -1) * (0.5 * height - radius);
    for (int i = 0; i < points_a_corner; ++i) {
      const double angle = 0.5 * pi * (corner + double(i) / (points_a_corner - 1));
      ring.push_back({x, middle_y + y + radius * std::cos(angle), z + radius * std::sin(angle)});
    }
  }
  return ring;
}

} // namespace

TriangleMesh capped_tube(const std::vector<Ring>& rings, const Place& start, const Place& end) {
  TriangleMesh mesh = open_tube(rings);
  const std::int32_t points = number(rings.front().size()), last = number(rings.size() - 1) * points;
  const std::int32_t first_middle = number(mesh.points.size()), last_middle = first_middle + 1;
  mesh.points.push_back(start);
  mesh.points.push_back(end);
  for (std::int32_t i = 0; i < points; ++i) {
    const std::int32_t j = (i + 1) % points;
    mesh.triangles.push_back({first_middle, j, i});
    mesh.triangles.push_back({last_middle, last + i, last + j});
  }
  return mesh;
}

TriangleMesh endless_tube(const std::vector<Ring>& rings) {
  TriangleMesh mesh = open_tube(rings);
  const std::int32_t points = number(rings.front().size());
  add_walls(mesh, number(rings.size() - 1) * points, 0, points);
  return mesh;
}

TriangleMesh sphere(double radius, int rings) {
  std::vector<Ring> circles;
  for (int i = 1; i <= rings; ++i) {
    const double angle = pi * i / (rings + 1);
    circles.push_back(circle_about_x(-radius * std::cos(angle), radius * std::sin(angle), 2 * rings));
  }
  return capped_tube(circles, {-radius, 0, 0}, {radius, 0, 0});
}

TriangleMesh cone(double radius, double height, int rings) {
  std::vector<Ring> circles;
  for (int i = 0; i < rings; ++i)
    circles.push_back(circle_about_x(height * i / rings, radius * (1 - double(i) / rings), 2 * rings));
  return capped_tube(circles, {0, 0, 0}, {height, 0, 0});
}

TriangleMesh torus(double radius, double tube_radius, int rings) {
  std::vector<Ring> circles;
  for (int i = 0; i < rings; ++i) {
    const double along = 2 * pi * i / rings;
    Ring ring;
    for (int j = 0; j < rings; ++j) {
      const double around = 2 * pi * j / rings;
      const double reach = radius + tube_radius * std::cos(around);
      ring.push_back({reach * std::cos(along), reach * std::sin(along), -tube_radius * std::sin(around)});
    }
    circles.push_back(ring);
  }
  return endless_tube(circles);
}

TriangleMesh knot(const KnotShape& shape, int rings, int points_around) {
  std::vector<Ring> circles;
  for (int i = 0; i < rings; ++i) {
    const double s = 2 * pi * i / rings;
    const double reach = shape.radius + shape.swing * std::cos(3 * s);
    const Place middle{reach * std::cos(2 * s), reach * std::sin(2 * s), shape.swing * std::sin(3 * s)};
    const Place along = unit(knot_tangent(shape, s));
    const Place outward{std::cos(3 * s) * std::cos(2 * s), std::cos(3 * s) * std::sin(2 * s), std::sin(3 * s)};
    const Place second = unit(cross(along, outward)), first = cross(second, along);
    Ring ring;
    for (int j = 0; j < points_around; ++j) {
      const double angle = 2 * pi * j / points_around;
      ring.push_back(
          sum(sum(middle, first, shape.tube_radius * std::cos(angle)), second, shape.tube_radius * std::sin(angle)));
    }
    circles.push_back(ring);
  }
  return endless_tube(circles);
}

double knot_length(const KnotShape& shape) {
  constexpr int steps = 1000;
  double length = 0;
  for (int i = 0; i < steps; ++i)
    length += size_of(knot_tangent(shape, 2 * pi * i / steps)) * 2 * pi / steps;
  return length;
}

TriangleMesh tapered_cone(const TaperedConeShape& shape, int steps, int points_a_corner) {
  std::vector<Ring> rings;
  Place start{}, end{};
  for (int i = 0; i <= steps; ++i) {
    const double part = double(i) / steps;
    const auto at = [part](const std::array<double, 2>& ends) { return ends[0] + part * (ends[1] - ends[0]); };
    const double middle = shape.root_offset + shape.bow * (1 - part) * (1 - part);
    const double x = part * shape.length;
    rings.push_back(
        rounded_rectangle(x, at(shape.width), at(shape.height), at(shape.corner_radius), middle, points_a_corner));
    (i == 0 ? start : end) = {x, middle, 0};
  }
  return capped_tube(rings, start, end);
}

TriangleMesh notched_box(const NotchedBoxShape& shape) {
  const auto [length, width, height] = shape.size;
  const double step = length - shape.notch[0], lower = height - shape.notch[2];
  // The outline in (x, z), seen from -y, runs counter-clockwise; against +y that is the way rings have to go.
  const std::vector<std::array<double, 2>> outline{{0, 0},        {length, 0},    {length, lower},
                                                   {step, lower}, {step, height}, {0, height}};
  TriangleMesh mesh;
  const std::int32_t points = number(outline.size());
  for (double y : {0.0, width})
    for (const auto& [x, z] : outline)
      mesh.points.push_back({x, y, z});
  add_walls(mesh, points, 0, points);
  // The outline is not convex; these four triangles fill it.
  for (const auto& [a, b, c] : {std::array{0, 1, 2}, {0, 2, 3}, {0, 3, 4}, {0, 4, 5}}) {
    mesh.triangles.push_back({a, b, c});
    mesh.triangles.push_back({points + c, points + b, points + a});
  }
  return mesh;
}

TriangleMesh box(const Place& low, const Place& high) {
  const Ring first{
      {low[0], low[1], low[2]}, {low[0], high[1], low[2]}, {low[0], high[1], high[2]}, {low[0], low[1], high[2]}};
  TriangleMesh mesh = open_tube({first, [&] {
                                   Ring second = first;
                                   for (Place& point : second)
                                     point[0] = high[0];
                                   return second;
                                 }()});
  for (const auto& triangle : {std::array{0, 2, 1}, {0, 3, 2}, {4, 5, 6}, {4, 6, 7}})
    mesh.triangles.push_back(triangle);
  return mesh;
}

TriangleMesh together(TriangleMesh first, const TriangleMesh& second) {
  const std::int32_t shift = number(first.points.size());
  first.points.insert(first.points.end(), second.points.begin(), second.points.end());
  for (const auto& [a, b, c] : second.triangles)
    first.triangles.push_back({a + shift, b + shift, c + shift});
  return first;
}

TriangleMesh moved(TriangleMesh mesh, const Place& by) {
  for (Place& point : mesh.points)
    point = sum(point, by);
  return mesh;
}

TriangleMesh scaled(TriangleMesh mesh, double factor) {
  for (Place& point : mesh.points)
    for (double& coordinate : point)
      coordinate *= factor;
  return mesh;
}

TriangleMesh inside_out(TriangleMesh mesh) {
  for (auto& triangle : mesh.triangles)
    std::swap(triangle[1], triangle[2]);
  return mesh;
}

} // namespace crushwright::made_surfaces
