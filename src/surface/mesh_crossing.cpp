#include "surface/mesh_crossing.hpp"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/orient_polygon_soup.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Surface_mesh.h>

#include <algorithm>
#include <iterator>
#include <utility>
#include <vector>

namespace crushwright {

std::optional<Crossing> crossing_of(const TriangleMesh& mesh) {
  using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
  using Surface = CGAL::Surface_mesh<Kernel::Point_3>;
  namespace processing = CGAL::Polygon_mesh_processing;
  std::vector<Kernel::Point_3> points;
  for (const auto& point : mesh.points)
    points.emplace_back(point[0], point[1], point[2]);
  std::vector<std::vector<std::size_t>> polygons;
  for (const auto& triangle : mesh.triangles)
    polygons.push_back({std::size_t(triangle[0]), std::size_t(triangle[1]), std::size_t(triangle[2])});
  // Two parts that touch in one point only get a point each.
  processing::orient_polygon_soup(points, polygons);
  Surface surface;
  processing::polygon_soup_to_polygon_mesh(points, polygons, surface);
  using Face = Surface::Face_index;
  std::vector<std::pair<Face, Face>> pairs;
  processing::self_intersections<CGAL::Sequential_tag>(surface, std::back_inserter(pairs));
  if (pairs.empty())
    return std::nullopt;
  const Face first = std::min_element(pairs.begin(), pairs.end())->first;
  std::array<double, 3> middle{};
  for (const auto vertex : CGAL::vertices_around_face(surface.halfedge(first), surface))
    for (int axis = 0; axis < 3; ++axis)
      middle[std::size_t(axis)] += surface.point(vertex)[axis] / 3;
  return Crossing{middle, pairs.size()};
}

} // namespace crushwright
