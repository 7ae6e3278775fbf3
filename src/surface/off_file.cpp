#include "surface/mesh_file.hpp"
#include "surface/text_scanner.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace crushwright {
namespace {

void pass_comments(TextScanner& scanner) {
  while (scanner.coming().substr(0, 1) == "#")
    scanner.leave_line();
}

} // namespace

PolygonSoup off_polygons(std::string_view bytes) {
  TextScanner scanner(bytes);
  pass_comments(scanner);
  const std::string_view kind = scanner.word();
  // Colours and normals, which the letters before OFF announce, stand behind the coordinates and are passed over.
  if (kind != "OFF" && kind != "COFF" && kind != "NOFF" && kind != "CNOFF")
    scanner.fail(kind, "'OFF'");
  pass_comments(scanner);
  const std::size_t points = scanner.count("the number of points");
  const std::size_t polygons = scanner.count("the number of faces");
  scanner.leave_line(); // the number of edges, which some programs leave out
  PolygonSoup soup;
  soup.points.reserve(std::min(points, scanner.bytes_left()));
  soup.polygons.reserve(std::min(polygons, scanner.bytes_left()));
  for (std::size_t i = 0; i < points; ++i) {
    pass_comments(scanner);
    soup.points.push_back(scanner.point("a coordinate of a point, a finite number,"));
    scanner.leave_line();
  }
  for (std::size_t i = 0; i < polygons; ++i) {
    pass_comments(scanner);
    const std::size_t corners = scanner.count("the number of a face's corners");
    std::vector<std::size_t> polygon;
    for (std::size_t corner = 0; corner < corners; ++corner) {
      polygon.push_back(scanner.count("the number of a point, from 0,"));
      if (polygon.back() >= points)
        throw BrokenMeshFile(scanner.line(), fmt::format("a face names point {}, counted from 0; there are {}",
                                                         polygon.back(), points));
    }
    scanner.leave_line();
    soup.polygons.push_back(std::move(polygon));
  }
  return soup;
}

} // namespace crushwright
