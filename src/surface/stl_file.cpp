#include "surface/byte_scanner.hpp"
#include "surface/mesh_file.hpp"
#include "surface/text_scanner.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace crushwright {
namespace {

constexpr std::size_t head_bytes = 84;
constexpr std::size_t triangle_bytes = 50;

bool same_word(std::string_view word, std::string_view expected) {
  return word.size() == expected.size() &&
         std::equal(word.begin(), word.end(), expected.begin(),
                    [](unsigned char a, char b) { return static_cast<char>(std::tolower(a)) == b; });
}

void add_triangle(PolygonSoup& soup) {
  const std::size_t last = soup.points.size();
  soup.polygons.push_back({last - 3, last - 2, last - 1});
}

void expect(TextScanner& scanner, std::string_view expected) {
  const std::string_view found = scanner.word();
  if (!same_word(found, expected))
    scanner.fail(found, fmt::format("'{}'", expected));
}

/// Past "facet". The normal is not read: it follows from the corners, and some programs write "nan" there.
void read_facet(TextScanner& scanner, PolygonSoup& soup) {
  expect(scanner, "normal");
  for (int i = 0; i < 3; ++i)
    if (scanner.word().empty())
      scanner.fail("", "the normal of a facet");
  expect(scanner, "outer");
  expect(scanner, "loop");
  for (int i = 0; i < 3; ++i) {
    expect(scanner, "vertex");
    soup.points.push_back(scanner.point("a coordinate of a vertex, a finite number,"));
  }
  expect(scanner, "endloop");
  expect(scanner, "endfacet");
  add_triangle(soup);
}

PolygonSoup from_text(std::string_view bytes) {
  TextScanner scanner(bytes);
  PolygonSoup soup;
  while (!scanner.at_end()) { // some programs write one solid after the other
    expect(scanner, "solid");
    scanner.leave_line();
    for (std::string_view word = scanner.word(); !same_word(word, "endsolid"); word = scanner.word()) {
      if (!same_word(word, "facet"))
        scanner.fail(word, "'facet' or 'endsolid'");
      read_facet(scanner, soup);
    }
    scanner.leave_line();
  }
  return soup;
}

PolygonSoup from_bytes(std::string_view bytes) {
  if (bytes.size() < head_bytes)
    throw BrokenMeshFile(0, fmt::format("the file has {} bytes, fewer than the {} of a binary STL file's head, and "
                                        "does not begin with 'solid' as a text one does",
                                        bytes.size(), head_bytes));
  ByteScanner scanner(bytes);
  scanner.pass(head_bytes - 4);
  const std::size_t count = scanner.take<std::uint32_t>();
  const std::size_t needed = head_bytes + triangle_bytes * count;
  if (bytes.size() != needed)
    throw BrokenMeshFile(0, fmt::format("the head announces {} triangles, which take {} bytes; the file has {}",
                                        count, needed, bytes.size()));
  PolygonSoup soup;
  soup.points.reserve(3 * count);
  soup.polygons.reserve(count);
  for (std::size_t triangle = 0; triangle < count; ++triangle) {
    scanner.pass(12); // the normal
    for (int corner = 0; corner < 3; ++corner) {
      std::array<double, 3> point{};
      for (double& coordinate : point) {
        coordinate = static_cast<double>(scanner.take<float>());
        if (!std::isfinite(coordinate))
          throw BrokenMeshFile(0, fmt::format("triangle {} of {} has the coordinate {}; a finite number was expected",
                                              triangle + 1, count, coordinate));
      }
      soup.points.push_back(point);
    }
    scanner.pass(2);
    add_triangle(soup);
  }
  return soup;
}

/// A binary file may begin with "solid" too, but hardly without a byte that no text holds.
bool is_text(std::string_view bytes) {
  const std::size_t begin = bytes.find_first_not_of(" \t\r\n");
  if (begin == std::string_view::npos || !same_word(bytes.substr(begin, 5), "solid"))
    return false;
  const std::string_view start = bytes.substr(0, 1000);
  return std::none_of(start.begin(), start.end(), [](char letter) {
    const auto value = static_cast<unsigned char>(letter);
    return value < 9 || (value > 13 && value < 32);
  });
}

} // namespace

PolygonSoup stl_polygons(std::string_view bytes) {
  return is_text(bytes) ? from_text(bytes) : from_bytes(bytes);
}

} // namespace crushwright
