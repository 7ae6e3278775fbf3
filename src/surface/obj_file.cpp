#include "surface/mesh_file.hpp"
#include "surface/text_scanner.hpp"

#include <fmt/format.h>

#include <charconv>

namespace crushwright {
namespace {

struct Face {
  std::vector<std::size_t> corners; ///< counted from 0
  std::size_t line = 0;
};

/// "7", "7/2", "7//3" or "-1/...": the point is the first number, from 1, or from the last point backwards.
std::size_t corner_of(const TextScanner& scanner, std::string_view word, std::size_t points_so_far) {
  const std::string_view digits = word.substr(0, word.find('/'));
  long long value = 0;
  const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (fault != std::errc{} || end != digits.data() + digits.size() || value == 0)
    scanner.fail(word, "the number of a point, from 1 or below 0,");
  if (value > 0)
    return static_cast<std::size_t>(value - 1);
  const auto backwards = static_cast<std::size_t>(-(value + 1)) + 1;
  if (backwards > points_so_far)
    throw BrokenMeshFile(scanner.line(),
                         fmt::format("a face counts {} points back; there are {} so far", backwards, points_so_far));
  return points_so_far - backwards;
}

} // namespace

PolygonSoup obj_polygons(std::string_view bytes) {
  TextScanner scanner(bytes);
  PolygonSoup soup;
  std::vector<Face> faces;
  // Everything but points and faces is passed over: normals, textures, groups, names, lines.
  for (std::string_view key = scanner.word(); !key.empty(); key = scanner.word()) {
    if (key == "v") {
      soup.points.push_back(scanner.point("a coordinate of a point, a finite number,"));
    } else if (key == "f") {
      Face face{{}, scanner.line()};
      for (std::string_view word = scanner.word_of_line(); !word.empty(); word = scanner.word_of_line())
        if (word == "\\") // the line goes on in the next
          face.corners.push_back(corner_of(scanner, scanner.word(), soup.points.size()));
        else
          face.corners.push_back(corner_of(scanner, word, soup.points.size()));
      if (face.corners.size() < 3)
        throw BrokenMeshFile(face.line,
                             fmt::format("a face has {} corners; at least three were expected", face.corners.size()));
      faces.push_back(std::move(face));
    }
    scanner.leave_line();
  }
  for (Face& face : faces) {
    for (std::size_t corner : face.corners)
      if (corner >= soup.points.size())
        throw BrokenMeshFile(face.line,
                             fmt::format("a face names point {}; there are {}", corner + 1, soup.points.size()));
    soup.polygons.push_back(std::move(face.corners));
  }
  return soup;
}

} // namespace crushwright
