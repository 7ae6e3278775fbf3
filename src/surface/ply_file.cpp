#include "surface/byte_scanner.hpp"
#include "surface/mesh_file.hpp"
#include "surface/text_scanner.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

namespace crushwright {
namespace {

enum class Scalar { int8, uint8, int16, uint16, int32, uint32, float32, float64 };

struct Property {
  std::string name;
  Scalar type = Scalar::float32;
  std::optional<Scalar> length_type; ///< of a list
};

struct Element {
  std::string name;
  std::size_t count = 0;
  std::vector<Property> properties;
};

struct Head {
  std::string format;
  std::vector<Element> elements;
};

Scalar scalar_of(const TextScanner& scanner, std::string_view word) {
  static const std::array<std::pair<std::string_view, Scalar>, 16> names{{{"char", Scalar::int8},
                                                                          {"int8", Scalar::int8},
                                                                          {"uchar", Scalar::uint8},
                                                                          {"uint8", Scalar::uint8},
                                                                          {"short", Scalar::int16},
                                                                          {"int16", Scalar::int16},
                                                                          {"ushort", Scalar::uint16},
                                                                          {"uint16", Scalar::uint16},
                                                                          {"int", Scalar::int32},
                                                                          {"int32", Scalar::int32},
                                                                          {"uint", Scalar::uint32},
                                                                          {"uint32", Scalar::uint32},
                                                                          {"float", Scalar::float32},
                                                                          {"float32", Scalar::float32},
                                                                          {"double", Scalar::float64},
                                                                          {"float64", Scalar::float64}}};
  for (const auto& [name, type] : names)
    if (name == word)
      return type;
  scanner.fail(word, "a type of number, for instance 'float' or 'int32',");
}

std::size_t bytes_of(Scalar type) {
  switch (type) {
  case Scalar::int8:
  case Scalar::uint8:
    return 1;
  case Scalar::int16:
  case Scalar::uint16:
    return 2;
  case Scalar::int32:
  case Scalar::uint32:
  case Scalar::float32:
    return 4;
  case Scalar::float64:
    return 8;
  }
  return 8;
}

Property read_property(TextScanner& scanner) {
  Property property;
  std::string_view word = scanner.word_of_line();
  if (word == "list") {
    property.length_type = scalar_of(scanner, scanner.word_of_line());
    word = scanner.word_of_line();
  }
  property.type = scalar_of(scanner, word);
  property.name = scanner.word_of_line();
  return property;
}

Head read_head(TextScanner& scanner) {
  Head head;
  if (const std::string_view first = scanner.word(); first != "ply")
    scanner.fail(first, "'ply'");
  for (std::string_view key = scanner.word(); key != "end_header"; key = scanner.word()) {
    if (key == "format")
      head.format = scanner.word_of_line();
    else if (key == "element")
      head.elements.push_back({std::string(scanner.word_of_line()), scanner.count("the number of elements"), {}});
    else if (key == "property" && !head.elements.empty())
      head.elements.back().properties.push_back(read_property(scanner));
    else if (key != "comment" && key != "obj_info")
      scanner.fail(key, "'element', 'property', 'comment' or 'end_header'");
    scanner.leave_line();
  }
  if (head.format != "ascii" && head.format != "binary_little_endian" && head.format != "binary_big_endian")
    throw BrokenMeshFile(2, fmt::format("'{}' is no format of a PLY file; expected ascii, binary_little_endian or "
                                        "binary_big_endian",
                                        shown_word(head.format)));
  return head;
}

/// One number of the body, whatever its form.
using NextNumber = std::function<double(Scalar type, const Element& element, std::size_t row)>;

[[noreturn]] void fail_in_row(const Element& element, std::size_t row, std::string_view words) {
  throw BrokenMeshFile(0, fmt::format("{} in {} {} of {}", words, shown_word(element.name), row + 1, element.count));
}

std::size_t whole(double value, const Element& element, std::size_t row) {
  if (!(value >= 0 && value <= 4294967295.0 && value == std::floor(value)))
    fail_in_row(element, row, fmt::format("{} stands where a whole number of 0 or more was expected", value));
  return static_cast<std::size_t>(value);
}

void read_vertex(const Element& element, std::size_t row, const NextNumber& next, PolygonSoup& soup) {
  std::array<double, 3> point{};
  for (const Property& property : element.properties) {
    const std::size_t numbers =
        property.length_type ? whole(next(*property.length_type, element, row), element, row) : 1;
    for (std::size_t i = 0; i < numbers; ++i) {
      const double value = next(property.type, element, row);
      const bool is_axis = property.name.size() == 1 && property.name[0] >= 'x' && property.name[0] <= 'z';
      if (!is_axis)
        continue;
      if (!std::isfinite(value))
        fail_in_row(element, row, fmt::format("{} stands where a finite number was expected", value));
      point[static_cast<std::size_t>(property.name[0] - 'x')] = value;
    }
  }
  soup.points.push_back(point);
}

void read_face(const Element& element, std::size_t row, const NextNumber& next, PolygonSoup& soup) {
  for (const Property& property : element.properties) {
    const std::size_t numbers =
        property.length_type ? whole(next(*property.length_type, element, row), element, row) : 1;
    const bool is_corners = property.name == "vertex_indices" || property.name == "vertex_index";
    std::vector<std::size_t> polygon;
    for (std::size_t i = 0; i < numbers; ++i) {
      const double value = next(property.type, element, row);
      if (is_corners)
        polygon.push_back(whole(value, element, row));
    }
    if (is_corners)
      soup.polygons.push_back(std::move(polygon));
  }
}

void read_other(const Element& element, std::size_t row, const NextNumber& next) {
  for (const Property& property : element.properties) {
    const std::size_t numbers =
        property.length_type ? whole(next(*property.length_type, element, row), element, row) : 1;
    for (std::size_t i = 0; i < numbers; ++i)
      next(property.type, element, row);
  }
}

double number_from_bytes(ByteScanner& scanner, Scalar type, const Element& element, std::size_t row) {
  if (scanner.left() < bytes_of(type))
    fail_in_row(element, row, "the file breaks off");
  switch (type) {
  case Scalar::int8:
    return scanner.take<std::int8_t>();
  case Scalar::uint8:
    return scanner.take<std::uint8_t>();
  case Scalar::int16:
    return scanner.take<std::int16_t>();
  case Scalar::uint16:
    return scanner.take<std::uint16_t>();
  case Scalar::int32:
    return scanner.take<std::int32_t>();
  case Scalar::uint32:
    return scanner.take<std::uint32_t>();
  case Scalar::float32:
    return static_cast<double>(scanner.take<float>());
  case Scalar::float64:
    return scanner.take<double>();
  }
  return 0;
}

void require_coordinates(const Head& head) {
  for (const Element& element : head.elements) {
    if (element.name != "vertex")
      continue;
    for (const char* axis : {"x", "y", "z"})
      if (std::none_of(element.properties.begin(), element.properties.end(),
                       [axis](const Property& property) { return property.name == axis; }))
        throw BrokenMeshFile(0, fmt::format("the vertices have no property '{}'", axis));
  }
}

} // namespace

PolygonSoup ply_polygons(std::string_view bytes) {
  TextScanner scanner(bytes);
  const Head head = read_head(scanner);
  require_coordinates(head);
  scanner.leave_line();
  const std::size_t body = std::min(bytes.size(), bytes.size() - scanner.bytes_left() + 1); // past the line's end
  TextScanner text(bytes.substr(body), scanner.line() + 1);
  ByteScanner binary(bytes.substr(body), head.format == "binary_little_endian");
  const NextNumber next = [&](Scalar type, const Element& element, std::size_t row) {
    return head.format == "ascii" ? text.number("a finite number") : number_from_bytes(binary, type, element, row);
  };
  PolygonSoup soup;
  for (const Element& element : head.elements)
    for (std::size_t row = 0; row < element.count && !element.properties.empty(); ++row)
      if (element.name == "vertex")
        read_vertex(element, row, next, soup);
      else if (element.name == "face")
        read_face(element, row, next, soup);
      else
        read_other(element, row, next);
  for (std::size_t i = 0; i < soup.polygons.size(); ++i)
    for (std::size_t corner : soup.polygons[i])
      if (corner >= soup.points.size())
        throw BrokenMeshFile(0, fmt::format("face {} names point {}, counted from 0; there are {}", i + 1, corner,
                                            soup.points.size()));
  return soup;
}

} // namespace crushwright
