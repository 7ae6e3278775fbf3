#pragma once
#include "crushwright/catalogue.hpp"
#include "crushwright/lattice_body.hpp"
#include "surface/made_surfaces.hpp"

#include <array>
#include <cmath>
#include <filesystem>
#include <string>

/// Bodies and lattices for the tests of trimming; all invented.
namespace crushwright::trim_samples {

using Point = std::array<double, 3>;

inline const UnitCell& shipped(const std::string& id) {
  static const Catalogue catalogue({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
  return catalogue.cell(id);
}

inline SizeAt constant(double size) {
  return [size](const Point&) { return size; };
}

inline LatticePlacement placed(double edge, const Point& origin = {0, 0, 0}) {
  LatticePlacement placement;
  placement.cell_edge = edge;
  placement.origin = origin;
  return placement;
}

/// A block with a slot from above: legs and a base of one unit, the slot as wide, of the stated depth along y.
inline TriangleMesh slotted_block(double unit, double depth) {
  const std::array<std::array<double, 2>, 8> corners{
      {{0, 0}, {3, 0}, {3, 3}, {2, 3}, {2, 1}, {1, 1}, {1, 3}, {0, 3}}};
  TriangleMesh mesh;
  for (double y : {0.0, depth})
    for (const auto& [x, z] : corners)
      mesh.points.push_back({unit * x, y, unit * z});
  // Seen from -y the corners go counter-clockwise, x to the right and z up.
  for (const auto& [a, b, c] :
       std::array<std::array<int, 3>, 6>{{{0, 1, 4}, {0, 4, 5}, {0, 5, 7}, {5, 6, 7}, {1, 2, 3}, {1, 3, 4}}}) {
    mesh.triangles.push_back({a, b, c});
    mesh.triangles.push_back({a + 8, c + 8, b + 8});
  }
  for (int i = 0; i < 8; ++i) {
    const int j = (i + 1) % 8;
    mesh.triangles.push_back({i, i + 8, j});
    mesh.triangles.push_back({j, i + 8, j + 8});
  }
  return mesh;
}

inline Point turned(const std::array<Point, 3>& rows, const Point& p) {
  Point result{};
  for (std::size_t i = 0; i < 3; ++i)
    result[i] = rows[i][0] * p[0] + rows[i][1] * p[1] + rows[i][2] * p[2];
  return result;
}

inline double span_of(const StrutBody& body, const BodyStrut& strut) {
  const Point &a = body.nodes[std::size_t(strut.from)], &b = body.nodes[std::size_t(strut.to)];
  return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

inline double total_length(const StrutBody& body) {
  double length = 0;
  for (const BodyStrut& strut : body.struts)
    length += span_of(body, strut);
  return length;
}

inline Point between(const Point& a, const Point& b, double part) {
  return {a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1]), a[2] + part * (b[2] - a[2])};
}

/// Everything kept: loose ends and short pieces too.
inline TrimOptions everything(double inset = 0) {
  TrimOptions options;
  options.inset = inset;
  options.loose_ends = LooseEnds::keep;
  options.shortest_piece = 0;
  return options;
}

} // namespace crushwright::trim_samples
