#include "crushwright/envelope.hpp"
#include "crushwright/errors.hpp"
#include "crushwright/exchange.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <pugixml.hpp>

#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <sstream>
#include <string>
#include <utility>

using namespace crushwright;

namespace {

template <class Number>
std::vector<Number> numbers(const pugi::xml_node& array) {
  REQUIRE(std::string(array.attribute("format").value()) == "ascii");
  std::istringstream text(array.text().get());
  std::vector<Number> values;
  for (Number value; text >> value;)
    values.push_back(value);
  REQUIRE(text.eof());
  return values;
}

struct ReadGrid {
  std::vector<double> volumes;                       ///< [m³], one a cell, from its faces
  std::map<std::string, std::vector<double>> values; ///< of the cells
};

using Place = std::array<double, 3>;

/// A strict reader of one-piece unstructured grids of polyhedra (VTK file formats, XML, unstructured grid): every
/// count is checked, every edge of a cell has to have two faces that run along it in opposite ways.
ReadGrid read_grid(const std::string& xml) {
  pugi::xml_document document;
  REQUIRE(document.load_buffer(xml.data(), xml.size()));
  const pugi::xml_node file = document.child("VTKFile");
  REQUIRE(std::string(file.attribute("type").value()) == "UnstructuredGrid");
  const pugi::xml_node piece = file.child("UnstructuredGrid").child("Piece");
  const std::size_t points = piece.attribute("NumberOfPoints").as_ullong(),
                    cells = piece.attribute("NumberOfCells").as_ullong();
  const std::vector<double> places = numbers<double>(piece.child("Points").child("DataArray"));
  REQUIRE(places.size() == 3 * points);
  std::map<std::string, std::vector<long>> lists;
  for (const pugi::xml_node& array : piece.child("Cells").children("DataArray"))
    lists[array.attribute("Name").value()] = numbers<long>(array);
  REQUIRE(lists.at("offsets").size() == cells);
  REQUIRE(lists.at("faceoffsets").size() == cells);
  REQUIRE(lists.at("types") == std::vector<long>(cells, 42));
  REQUIRE(std::size_t(lists.at("offsets").back()) == lists.at("connectivity").size());
  REQUIRE(std::size_t(lists.at("faceoffsets").back()) == lists.at("faces").size());
  const auto at = [&](long point) {
    REQUIRE(std::size_t(point) < points);
    const std::size_t p = 3 * std::size_t(point);
    return Place{places[p], places[p + 1], places[p + 2]};
  };
  ReadGrid grid;
  std::size_t next = 0;
  const std::vector<long>& faces = lists.at("faces");
  for (std::size_t cell = 0; cell < cells; ++cell) {
    double volume = 0;
    std::map<std::pair<long, long>, int> ways;
    const long count = faces.at(next++);
    for (long face = 0; face < count; ++face) {
      const auto size = std::size_t(faces.at(next++));
      for (std::size_t k = 0; k < size; ++k)
        ++ways[{faces.at(next + k), faces.at(next + (k + 1) % size)}];
      const Place a = at(faces.at(next));
      for (std::size_t k = 1; k + 1 < size; ++k) {
        const Place b = at(faces.at(next + k)), c = at(faces.at(next + k + 1));
        volume += (a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) +
                   a[2] * (b[0] * c[1] - b[1] * c[0])) /
                  6;
      }
      next += size;
    }
    REQUIRE(next == std::size_t(lists.at("faceoffsets")[cell]));
    for (const auto& [way, times] : ways) {
      CHECK(times == 1);
      CHECK(ways.count({way.second, way.first}) == 1);
    }
    grid.volumes.push_back(volume);
  }
  for (const pugi::xml_node& array : piece.child("CellData").children("DataArray")) {
    grid.values[array.attribute("Name").value()] = numbers<double>(array);
    REQUIRE(grid.values[array.attribute("Name").value()].size() == cells);
  }
  return grid;
}

/// Layers of a frustum of a round cone, radius 60 to 100 mm over 300 mm.
std::vector<LayerCell> round_layers(int count, std::size_t around) {
  const auto face = [&](double station) {
    const double radius = 0.06 + 0.04 * station / 0.3;
    std::vector<std::array<double, 2>> points;
    for (std::size_t k = 0; k < around; ++k) {
      const double angle = 2 * std::numbers::pi * double(k) / double(around);
      points.push_back({0.02 + radius * std::cos(angle), radius * std::sin(angle) - 0.01});
    }
    return points;
  };
  std::vector<LayerCell> layers;
  for (int i = 0; i < count; ++i) {
    LayerCell layer;
    layer.station = 0.3 * i / count;
    layer.height = 0.3 / count;
    layer.outer_face = face(layer.station);
    layer.inner_face = face(layer.station + layer.height);
    layer.relative_density = 0.1 + 0.01 * i;
    layer.size = 0.0008 + 0.0001 * i;
    layer.collapse_force = 40e3 + 1e3 * i;
    layer.crush_order = i + 1;
    layers.push_back(layer);
  }
  return layers;
}

} // namespace

TEST_CASE("the layers' polyhedra are closed, face outward and have the volume of the body") {
  const std::size_t around = 48;
  const ReadGrid grid = read_grid(write_vtu(round_layers(7, around)));
  REQUIRE(grid.volumes.size() == 7);
  double volume = 0;
  for (double each : grid.volumes) {
    CHECK(each > 0);
    volume += each;
  }
  // A frustum of a pyramid whose base is a regular polygon: the round one times the polygon's share of its circle.
  const double share = double(around) / (2 * std::numbers::pi) * std::sin(2 * std::numbers::pi / double(around));
  CHECK(volume == Approx(share * std::numbers::pi * 0.3 / 3 * (0.06 * 0.06 + 0.06 * 0.1 + 0.1 * 0.1)).epsilon(1e-9));
}

TEST_CASE("outlines of one envelope's sections make layers that add up to its volume") {
  Section tip, root;
  tip.shape = root.shape = SectionShape::rectangle;
  tip.width = 0.10, tip.height = 0.08;
  root.station = 0.2, root.width = 0.16, root.height = 0.08;
  const Envelope envelope{{tip, root}, {}};
  std::vector<LayerCell> layers;
  for (int i = 0; i < 4; ++i) {
    LayerCell layer;
    layer.station = 0.05 * i;
    layer.height = 0.05;
    layer.outer_face = outline(section_at(envelope, layer.station));
    layer.inner_face = outline(section_at(envelope, layer.station + layer.height));
    layers.push_back(layer);
  }
  double volume = 0;
  for (double each : read_grid(write_vtu(layers)).volumes)
    volume += each;
  CHECK(volume == Approx(0.08 * 0.2 * 0.13).epsilon(1e-9));
}

TEST_CASE("values stand in the units that their names say") {
  const auto values = read_grid(write_vtu(round_layers(3, 8))).values;
  CHECK(values.size() == 4);
  CHECK(values.at("relative_density_-")[2] == Approx(0.12));
  CHECK(values.at("strut_or_wall_mm")[1] == Approx(0.9));
  CHECK(values.at("collapse_force_kN")[1] == Approx(41));
  CHECK(values.at("crush_order_-") == std::vector<double>{1, 2, 3});
}

TEST_CASE("layers that do not match are refused by their place") {
  CHECK_THROWS_WITH(write_vtu({}), "VTK: the structure has no layer");
  auto layers = round_layers(3, 8);
  layers[1].inner_face.pop_back();
  CHECK_THROWS_WITH(write_vtu(layers),
                    "VTK: layer 1: its faces have 8 and 7 points; expected the same number, 3 or more");
  layers = round_layers(3, 8);
  layers[2].height = 0;
  CHECK_THROWS_WITH(write_vtu(layers), "VTK: layer 2: station 0.2 m, height 0 m; expected a height over 0");
  layers = round_layers(3, 8);
  layers[0].collapse_force = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_WITH(write_vtu(layers), "VTK: layer 0: a value is not finite");
}
