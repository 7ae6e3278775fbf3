#pragma once
#include "crushwright/unit_cell.hpp"
#include "unit_cell/strut_identity.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

/// Strut lattices built from their definitions, so that tests of the solid do not lean on the catalogue.
namespace crushwright::sample_lattices {

using Point = std::array<double, 3>;

inline double apart(const Point& p, const Point& q) {
  return std::hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

/// Joins all points of the periodic set that are `length` apart, each strut once, from the first cell outwards.
inline std::vector<Strut> joined(const std::vector<Point>& points, double length) {
  std::vector<Strut> struts;
  for (const Point& from : points)
    for (const Point& inner : points)
      for (int image = 0; image < 27; ++image) {
        const Point to{inner[0] + image % 3 - 1, inner[1] + image / 3 % 3 - 1, inner[2] + image / 9 - 1};
        if (from < to && std::abs(apart(from, to) - length) < 1e-9)
          struts.push_back({from, to});
      }
  return struts;
}

inline std::vector<Point> face_centred() {
  return {{0, 0, 0}, {0, 0.5, 0.5}, {0.5, 0, 0.5}, {0.5, 0.5, 0}};
}

inline std::vector<Strut> simple_cubic() {
  return joined({{0, 0, 0}}, 1);
}
inline std::vector<Strut> bcc() {
  return joined({{0, 0, 0}, {0.5, 0.5, 0.5}}, std::sqrt(0.75));
}
inline std::vector<Strut> octet() {
  return joined(face_centred(), std::sqrt(0.5));
}
inline std::vector<Strut> diamond() {
  std::vector<Point> points = face_centred();
  for (const Point& p : face_centred())
    points.push_back({p[0] + 0.25, p[1] + 0.25, p[2] + 0.25});
  return joined(points, std::sqrt(3.0) / 4);
}
inline std::vector<Strut> kelvin() {
  std::vector<Point> points;
  for (std::size_t zero = 0; zero < 3; ++zero)
    for (double quarter : {0.25, 0.75})
      for (std::size_t shift : {1U, 2U}) {
        Point p{};
        p[(zero + shift) % 3] = quarter;
        p[(zero + 3 - shift) % 3] = 0.5;
        points.push_back(p);
      }
  return joined(points, std::sqrt(2.0) / 4);
}

struct Named {
  std::string name;
  std::vector<Strut> struts;
};

inline std::vector<Named> all() {
  return {{"simple cubic", simple_cubic()},
          {"bcc", bcc()},
          {"octet", octet()},
          {"diamond", diamond()},
          {"kelvin", kelvin()}};
}

inline double length(const std::vector<Strut>& struts) {
  double sum = 0;
  for (const Strut& strut : struts)
    sum += strut_length(strut);
  return sum;
}

/// What long bars of radius 1 that meet in one node count double: Σ volumes - volume of the union.
///
/// The union is a star about the node: along the direction u it reaches 1 / sin θ, θ the angle to the nearest bar. So
/// the overlap is the integral of 1 / (3 sin³θ_i) over all directions that bar i reaches but that lie nearer to
/// another; the integral over θ_i is a cotangent, which leaves 1/3 Σ_i ∫ max_j (w·e_j) / (1 - e_i·e_j) dφ with w
/// normal to e_i.
inline double overlap_of_bars(const std::vector<Point>& directions) {
  const auto dot = [](const Point& p, const Point& q) { return p[0] * q[0] + p[1] * q[1] + p[2] * q[2]; };
  const auto cross = [](const Point& p, const Point& q) {
    return Point{p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]};
  };
  const int steps = 7200;
  double overlap = 0;
  for (const Point& along : directions) {
    Point side = cross(along, std::abs(along[0]) < 0.7 ? Point{1, 0, 0} : Point{0, 1, 0});
    const double norm = std::sqrt(dot(side, side));
    for (double& component : side)
      component /= norm;
    const Point up = cross(along, side);
    for (int step = 0; step < steps; ++step) {
      const double phi = 2 * std::numbers::pi * (step + 0.5) / steps;
      double cotangent = 0;
      for (const Point& other : directions)
        if (1 - dot(along, other) > 1e-9)
          cotangent = std::max(cotangent, (std::cos(phi) * dot(side, other) + std::sin(phi) * dot(up, other)) /
                                              (1 - dot(along, other)));
      overlap += cotangent * 2 * std::numbers::pi / steps / 3;
    }
  }
  return overlap;
}

/// Sum of the overlaps at all nodes of one cell, for struts of radius 1.
inline double node_overlap(const std::vector<Strut>& struts) {
  const auto folded = [](Point p) {
    for (double& component : p)
      component = std::round((component - std::floor(component + 1e-6)) * 1e6) / 1e6;
    return p;
  };
  std::vector<Point> nodes;
  std::vector<std::vector<Point>> directions;
  const auto add = [&](const Point& from, const Point& to) {
    const Point node = folded(from);
    const auto found = std::find(nodes.begin(), nodes.end(), node);
    const auto place = static_cast<std::size_t>(found - nodes.begin());
    if (found == nodes.end()) {
      nodes.push_back(node);
      directions.emplace_back();
    }
    const double span = apart(from, to);
    directions[place].push_back({(to[0] - from[0]) / span, (to[1] - from[1]) / span, (to[2] - from[2]) / span});
  };
  for (const Strut& strut : struts) {
    add(strut.from, strut.to);
    add(strut.to, strut.from);
  }
  double overlap = 0;
  for (const std::vector<Point>& bars : directions)
    overlap += overlap_of_bars(bars);
  return overlap;
}

} // namespace crushwright::sample_lattices
