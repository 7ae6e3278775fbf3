#include "surface/mesh_solid.hpp"

#include "crushwright/errors.hpp"
#include "surface/clipped.hpp"
#include "surface/line_crossings.hpp"
#include "surface/wall_tree.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace crushwright {
namespace {

constexpr double in_a_face = 1e-6;       // cell edges: a triangle this near to a cell's face is a cut
constexpr double copies_reach = 0.15;    // cell edges around the cell that hold copies of the walls
constexpr double largest_overhang = 0.5; // cell edges: beyond that the stated edge cannot be the cell's
constexpr int face_samples = 128;
constexpr double matching_part = 0.02; // of the metal in two opposite faces that may differ

using Point = std::array<double, 3>;

SurfacePolygon inside_cell(SurfacePolygon polygon) {
  for (std::size_t axis = 0; axis < 3 && !polygon.empty(); ++axis)
    polygon = clipped(clipped(polygon, axis, 0, true), axis, 1, false);
  return polygon;
}

bool is_cut(const SurfacePolygon& polygon) {
  for (std::size_t axis = 0; axis < 3; ++axis)
    for (double face : {0.0, 1.0})
      if (std::all_of(polygon.begin(), polygon.end(),
                      [&](const Point& point) { return std::abs(point[axis] - face) < in_a_face; }))
        return true;
  return false;
}

using WallTriangle = std::array<Point, 3>;

void add_near_copies(const WallTriangle& wall, std::vector<WallTriangle>& walls) {
  for (int copy = 0; copy < 27; ++copy) {
    const std::array<double, 3> shift{double(copy % 3 - 1), double(copy / 3 % 3 - 1), double(copy / 9 - 1)};
    WallTriangle moved = wall;
    bool near = true;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      for (Point& corner : moved)
        corner[axis] += shift[axis];
      const auto [low, high] = std::minmax({moved[0][axis], moved[1][axis], moved[2][axis]});
      near = near && high >= -copies_reach && low <= 1 + copies_reach;
    }
    if (near)
      walls.push_back(moved);
  }
}

/// The mesh inside the cell without its cuts, and the copies around.
std::vector<WallTriangle> walls_of(const TriangleMesh& mesh) {
  std::vector<WallTriangle> walls;
  for (std::size_t place = 0; place < mesh.triangles.size(); ++place) {
    const SurfacePolygon polygon = inside_cell(triangle_of(mesh, place));
    if (polygon.empty() || is_cut(polygon))
      continue;
    for (std::size_t i = 1; i + 1 < polygon.size(); ++i)
      add_near_copies({polygon[0], polygon[i], polygon[i + 1]}, walls);
  }
  return walls;
}

/// ∫ (x - from) n_x dS over the part of a polygon with x >= from.
double swept_beyond(const SurfacePolygon& polygon, double from) {
  const SurfacePolygon part = clipped(polygon, 0, from, true);
  double sum = 0;
  for (std::size_t i = 1; i + 1 < part.size(); ++i) {
    const Point &a = part[0], &b = part[i], &c = part[i + 1];
    const double twice_area = (b[1] - a[1]) * (c[2] - a[2]) - (b[2] - a[2]) * (c[1] - a[1]);
    sum += 0.5 * twice_area * ((a[0] + b[0] + c[0]) / 3 - from);
  }
  return sum;
}

std::vector<double> centres(int n) {
  std::vector<double> places;
  for (int i = 0; i < n; ++i)
    places.push_back((i + 0.5) / n);
  return places;
}

constexpr const char* axis_names = "xyz";

void require_reach(const TriangleMesh& mesh, double edge) {
  for (std::size_t axis = 0; axis < 3; ++axis) {
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (const Point& point : mesh.points) {
      low = std::min(low, point[axis]);
      high = std::max(high, point[axis]);
    }
    const bool short_of = low > in_a_face || high < 1 - in_a_face;
    const bool beyond = low < -largest_overhang || high > 1 + largest_overhang;
    if (short_of || beyond)
      throw OutOfDomain(fmt::format("along {} the mesh runs from {:.6g} to {:.6g}, and the cell from 0 to {:.6g}: {}",
                                    axis_names[axis], low * edge, high * edge, edge,
                                    short_of ? "the mesh does not reach across it"
                                             : "the mesh sticks out of it by more than half a cell"));
  }
}

void require_matching_faces(const TriangleMesh& mesh) {
  const std::vector<double> places = centres(face_samples);
  for (std::size_t axis = 0; axis < 3; ++axis) {
    int metal = 0, differing = 0;
    for (const auto& line : line_crossings(mesh, axis, places, places)) {
      const bool at_start = inside_at(line, in_a_face), at_end = inside_at(line, 1 - in_a_face);
      metal += at_start || at_end ? 1 : 0;
      differing += at_start != at_end ? 1 : 0;
    }
    if (differing > matching_part * metal)
      throw OutOfDomain(
          fmt::format("the faces {0} = 0 and {0} = 1 of the cell do not match: {1:.1f} % of their metal "
                      "has none opposite, so copies of the cell do not join there",
                      axis_names[axis], 100.0 * differing / metal));
  }
}

} // namespace

double volume_in_cell(const TriangleMesh& mesh) {
  double volume = 0;
  for (std::size_t place = 0; place < mesh.triangles.size(); ++place) {
    SurfacePolygon polygon = triangle_of(mesh, place);
    for (std::size_t axis = 1; axis < 3 && !polygon.empty(); ++axis)
      polygon = clipped(clipped(polygon, axis, 0, true), axis, 1, false);
    volume += swept_beyond(polygon, 0) - swept_beyond(polygon, 1);
  }
  return volume;
}

void require_one_cell(const TriangleMesh& mesh, double edge) {
  require_reach(mesh, edge);
  require_matching_faces(mesh);
}

std::vector<std::uint8_t> inside_samples(const TriangleMesh& mesh, const std::array<int, 3>& cells) {
  const std::vector<double> along = centres(cells[0]);
  std::vector<std::uint8_t> inside;
  inside.reserve(std::size_t(cells[0]) * std::size_t(cells[1]) * std::size_t(cells[2]));
  for (const auto& line : line_crossings(mesh, 0, centres(cells[1]), centres(cells[2])))
    for (double place : along)
      inside.push_back(inside_at(line, place) ? 1 : 0);
  return inside;
}

struct MeshSolid::Parts {
  TriangleMesh mesh;
  WallTree walls;
};

MeshSolid::MeshSolid(const TriangleMesh& mesh) : parts_(new Parts{mesh, WallTree(walls_of(mesh))}) {}
MeshSolid::~MeshSolid() = default;

void MeshSolid::visit_layer(const std::array<int, 3>& cells, double reach, int layer,
                            const std::function<void(std::size_t, double)>& visitor) const {
  const std::vector<double> along = centres(cells[0]), across = centres(cells[1]);
  const double height = (layer + 0.5) / cells[2];
  const auto lines = line_crossings(parts_->mesh, 0, across, {height});
  std::size_t index = std::size_t(layer) * across.size() * along.size();
  for (std::size_t y = 0; y < across.size(); ++y) {
    double at_least = 0; // what the last distance leaves of a lower bound
    for (double x : along) {
      const bool inside = inside_at(lines[y], x);
      at_least -= 1.0 / cells[0];
      if (at_least <= reach && !parts_->walls.empty())
        at_least = parts_->walls.distance({x, across[y], height});
      const double distance = parts_->walls.empty() ? 2 * reach : at_least;
      if (inside)
        visitor(index, -std::min(distance, reach));
      else if (distance <= reach)
        visitor(index, distance);
      ++index;
    }
  }
}

} // namespace crushwright
