#include "surface/mesh_file.hpp"

#include <CGAL/IO/OBJ.h>
#include <CGAL/IO/OFF.h>
#include <CGAL/IO/PLY.h>
#include <CGAL/IO/STL.h>
#include <CGAL/Simple_cartesian.h>
#include <CGAL/assertions_behaviour.h>
#include <CGAL/exceptions.h>

namespace crushwright {
namespace {

using Points = std::vector<CGAL::Simple_cartesian<double>::Point_3>;
using Polygons = std::vector<std::vector<std::size_t>>;

bool read_kind(const std::string& kind, const std::string& name, Points& points, Polygons& polygons) {
  if (kind == ".stl")
    return CGAL::IO::read_STL(name, points, polygons);
  if (kind == ".ply")
    return CGAL::IO::read_PLY(name, points, polygons);
  if (kind == ".off")
    return CGAL::IO::read_OFF(name, points, polygons);
  return kind == ".obj" && CGAL::IO::read_OBJ(name, points, polygons);
}

} // namespace

bool read_polygons(const std::filesystem::path& file, PolygonSoup& soup) {
  std::string kind = file.extension().string();
  for (char& letter : kind)
    letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  Points points;
  Polygons polygons;
  try {
    if (!read_kind(kind, file.string(), points, polygons))
      return false;
  } catch (const std::exception&) { // what a broken file makes the library throw
    return false;
  }
  soup.points.clear();
  for (const auto& point : points)
    soup.points.push_back({point.x(), point.y(), point.z()});
  soup.polygons = std::move(polygons);
  for (const auto& polygon : soup.polygons)
    for (std::size_t corner : polygon)
      if (corner >= soup.points.size())
        return false;
  return true;
}

} // namespace crushwright
