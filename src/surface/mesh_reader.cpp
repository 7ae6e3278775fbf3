#include "surface/mesh_reader.hpp"

#include "crushwright/errors.hpp"
#include "surface/mesh_crossing.hpp"
#include "surface/mesh_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace crushwright {
namespace {

using Point = std::array<double, 3>;
using Edge = std::pair<std::int32_t, std::int32_t>;

std::string kind_of(const std::filesystem::path& file) {
  std::string kind = file.extension().string();
  std::transform(kind.begin(), kind.end(), kind.begin(),
                 [](unsigned char letter) { return static_cast<char>(std::toupper(letter)); });
  return kind.empty() ? kind : kind.substr(1);
}

[[noreturn]] void refuse(const std::filesystem::path& file, const std::string& what, const std::string& what_to_do) {
  throw InputError(fmt::format("{}: {}\n   {}", file.string(), what, what_to_do));
}

std::string shown(const Point& point) {
  return fmt::format("({:.6g}, {:.6g}, {:.6g})", point[0], point[1], point[2]);
}

TriangleMesh as_triangles(const PolygonSoup& soup) {
  TriangleMesh mesh;
  std::map<Point, std::int32_t> places;
  std::vector<std::int32_t> place_of;
  for (Point point : soup.points) {
    for (double& coordinate : point)
      coordinate += 0.0; // -0 and 0 are one point
    const auto [found, fresh] = places.emplace(point, static_cast<std::int32_t>(mesh.points.size()));
    if (fresh)
      mesh.points.push_back(point);
    place_of.push_back(found->second);
  }
  for (const auto& polygon : soup.polygons)
    for (std::size_t i = 1; i + 1 < polygon.size(); ++i) {
      const std::array<std::int32_t, 3> triangle{place_of[polygon[0]], place_of[polygon[i]],
                                                 place_of[polygon[i + 1]]};
      if (triangle[0] != triangle[1] && triangle[1] != triangle[2] && triangle[2] != triangle[0])
        mesh.triangles.push_back(triangle);
    }
  return mesh;
}

/// How often the triangles run along each edge, from its lower point to its higher one and back.
std::map<Edge, std::pair<int, int>> edge_uses(const TriangleMesh& mesh) {
  std::map<Edge, std::pair<int, int>> uses;
  for (const auto& triangle : mesh.triangles)
    for (std::size_t i = 0; i < 3; ++i) {
      const std::int32_t from = triangle[i], to = triangle[(i + 1) % 3];
      auto& [there, back] = uses[{std::min(from, to), std::max(from, to)}];
      ++(from < to ? there : back);
    }
  return uses;
}

/// Edges with one kind of fault: how many, and the middle of the first.
struct EdgeFault {
  std::size_t count = 0;
  Point place{};

  void add(const TriangleMesh& mesh, const Edge& edge) {
    if (count++ > 0)
      return;
    const Point& from = mesh.points[std::size_t(edge.first)];
    const Point& to = mesh.points[std::size_t(edge.second)];
    for (std::size_t axis = 0; axis < 3; ++axis)
      place[axis] = 0.5 * (from[axis] + to[axis]);
  }
};

void require_closed(const std::filesystem::path& file, const TriangleMesh& mesh) {
  EdgeFault open, crowded, turned;
  for (const auto& [edge, uses] : edge_uses(mesh)) {
    const int all = uses.first + uses.second;
    if (all == 1)
      open.add(mesh, edge);
    else if (all > 2)
      crowded.add(mesh, edge);
    else if (uses.first != 1)
      turned.add(mesh, edge);
  }
  if (crowded.count > 0)
    refuse(file,
           fmt::format("the surface has {} edges with more than two triangles; the first near {}", crowded.count,
                       shown(crowded.place)),
           "Unite overlapping parts into one body and export again.");
  if (open.count > 0)
    refuse(file,
           fmt::format("the surface has a hole: {} edges have a triangle on one side only; the first near {}",
                       open.count, shown(open.place)),
           "Close the surface, so that it bounds a solid, and export again.");
  if (turned.count > 0)
    refuse(file,
           fmt::format("triangles face opposite ways across {} edges; the first near {}", turned.count,
                       shown(turned.place)),
           "Turn all triangles to face outward (unify the normals) and export again.");
}

double enclosed_volume(const TriangleMesh& mesh) {
  double six_volumes = 0;
  for (const auto& triangle : mesh.triangles) {
    const Point& a = mesh.points[std::size_t(triangle[0])];
    const Point& b = mesh.points[std::size_t(triangle[1])];
    const Point& c = mesh.points[std::size_t(triangle[2])];
    six_volumes +=
        a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return six_volumes / 6;
}

PolygonSoup read_soup(const std::filesystem::path& file) {
  const std::string kind = kind_of(file);
  if (kind != "STL" && kind != "PLY" && kind != "OFF" && kind != "OBJ")
    refuse(file, fmt::format("'{}' is no kind of surface that is read here", file.extension().string()),
           "Export the surface as .stl, .ply, .off or .obj.");
  if (!std::filesystem::is_regular_file(file))
    refuse(file, "there is no such file", "Put the mesh beside the entry that names it, or correct its name.");
  if (std::filesystem::file_size(file) == 0)
    refuse(file, "the file is empty", "Export the surface again.");
  PolygonSoup soup;
  if (!read_polygons(file, soup))
    refuse(file, fmt::format("the file breaks off, or is not {0} as its name says", kind),
           "Export the surface again; the transfer may have been cut short.");
  if (soup.polygons.empty())
    refuse(file, "the file holds no triangles", "Export the surface again, as triangles.");
  for (const Point& point : soup.points)
    for (double coordinate : point)
      if (!std::isfinite(coordinate))
        refuse(file, "a point has a coordinate that is not a number", "Repair the surface and export it again.");
  return soup;
}

} // namespace

TriangleMesh read_closed_mesh(const std::filesystem::path& file) {
  TriangleMesh mesh = as_triangles(read_soup(file));
  require_closed(file, mesh);
  if (!(enclosed_volume(mesh) > 0))
    refuse(file, "the surface is turned inside out: it encloses a volume below zero",
           "Turn all triangles to face outward (flip the normals) and export again.");
  if (const auto crossing = crossing_of(mesh))
    refuse(file,
           fmt::format("the surface crosses itself in {} pairs of triangles; the first near {}", crossing->pairs,
                       shown(crossing->place)),
           "Unite overlapping parts into one body and export again.");
  return mesh;
}

} // namespace crushwright
