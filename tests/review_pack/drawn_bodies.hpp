#pragma once
#include "crushwright/lattice_body.hpp"
#include "crushwright/surface.hpp"

#include <cmath>
#include <numbers>

namespace crushwright {

/// A box with its faces towards -x, +x, ..., twelve triangles; invented, as all bodies here.
inline TriangleMesh box_mesh(const std::array<double, 3>& low, const std::array<double, 3>& high) {
  TriangleMesh mesh;
  for (int corner = 0; corner < 8; ++corner) {
    mesh.points.push_back({(corner & 1) != 0 ? high[0] : low[0], (corner & 2) != 0 ? high[1] : low[1],
                           (corner & 4) != 0 ? high[2] : low[2]});
  }
  mesh.triangles = {{0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}, {0, 1, 5}, {0, 5, 4},
                    {2, 6, 7}, {2, 7, 3}, {0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}};
  return mesh;
}

/// A ball of rings about z, corners on the sphere.
inline TriangleMesh ball_mesh(const std::array<double, 3>& centre, double radius, int rings) {
  TriangleMesh mesh;
  const int around = 2 * rings;
  const auto point = [&](double from_pole, double turn) {
    mesh.points.push_back({centre[0] + radius * std::sin(from_pole) * std::cos(turn),
                           centre[1] + radius * std::sin(from_pole) * std::sin(turn),
                           centre[2] + radius * std::cos(from_pole)});
  };
  point(0, 0);
  for (int ring = 1; ring < rings; ++ring) {
    for (int k = 0; k < around; ++k) {
      point(std::numbers::pi * ring / rings, 2 * std::numbers::pi * k / around);
    }
  }
  point(std::numbers::pi, 0);
  const auto at = [&](int ring, int k) { return 1 + (ring - 1) * around + k % around; };
  const int last = static_cast<int>(mesh.points.size()) - 1;
  for (int k = 0; k < around; ++k) {
    mesh.triangles.push_back({0, at(1, k), at(1, k + 1)});
    mesh.triangles.push_back({last, at(rings - 1, k + 1), at(rings - 1, k)});
    for (int ring = 1; ring + 1 < rings; ++ring) {
      mesh.triangles.push_back({at(ring, k), at(ring + 1, k), at(ring + 1, k + 1)});
      mesh.triangles.push_back({at(ring, k), at(ring + 1, k + 1), at(ring, k + 1)});
    }
  }
  return mesh;
}

inline StrutBody one_bar(const std::array<double, 3>& from, const std::array<double, 3>& to, double from_radius,
                         double to_radius) {
  return {{from, to}, {{0, 1, from_radius, to_radius}}};
}

/// Struts from the corners of a grid of cubes to their middles, in a box from `low` on.
inline StrutBody centred_lattice(const std::array<double, 3>& low, const std::array<int, 3>& cells, double edge,
                                 double radius) {
  StrutBody body;
  for (int x = 0; x < cells[0]; ++x) {
    for (int y = 0; y < cells[1]; ++y) {
      for (int z = 0; z < cells[2]; ++z) {
        const std::array<int, 3> cell = {x, y, z};
        const auto at = [&](double dx, double dy, double dz) {
          const std::array<double, 3> part = {dx, dy, dz};
          std::array<double, 3> point{};
          for (std::size_t a = 0; a < 3; ++a) {
            point[a] = low[a] + edge * (cell[a] + part[a]);
          }
          body.nodes.push_back(point);
          return static_cast<std::int32_t>(body.nodes.size()) - 1;
        };
        const std::int32_t middle = at(0.5, 0.5, 0.5);
        for (int corner = 0; corner < 8; ++corner) {
          const std::int32_t end = at(corner & 1, (corner >> 1) & 1, (corner >> 2) & 1);
          body.struts.push_back({middle, end, radius, radius});
        }
      }
    }
  }
  return body;
}

} // namespace crushwright
