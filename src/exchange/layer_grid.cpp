#include "crushwright/errors.hpp"
#include "crushwright/exchange.hpp"

#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <iterator>

namespace crushwright {
namespace {

constexpr int polyhedron = 42; // VTK_POLYHEDRON

void require_layer(const LayerCell& layer, std::size_t place) {
  const auto refuse = [&](const std::string& why) {
    throw OutOfDomain(fmt::format("VTK: layer {}: {}", place, why));
  };
  if (layer.outer_face.size() != layer.inner_face.size() || layer.outer_face.size() < 3)
    refuse(fmt::format("its faces have {} and {} points; expected the same number, 3 or more",
                       layer.outer_face.size(), layer.inner_face.size()));
  if (!(std::isfinite(layer.station) && layer.height > 0 && std::isfinite(layer.height)))
    refuse(fmt::format("station {:g} m, height {:g} m; expected a height over 0", layer.station, layer.height));
  for (const auto* face : {&layer.outer_face, &layer.inner_face})
    for (const auto& point : *face)
      if (!(std::isfinite(point[0]) && std::isfinite(point[1])))
        refuse("a point of its outline is not finite");
  for (double value : {layer.relative_density, layer.size, layer.collapse_force})
    if (!std::isfinite(value))
      refuse("a value is not finite");
}

void put_points(std::string& xml, const std::vector<LayerCell>& layers) {
  xml += "   <Points>\n    <DataArray type=\"Float64\" Name=\"place_m\" NumberOfComponents=\"3\" format=\"ascii\">\n";
  auto out = std::back_inserter(xml);
  for (const LayerCell& layer : layers) {
    for (const auto& point : layer.outer_face)
      fmt::format_to(out, "{:.12g} {:.12g} {:.12g}\n", layer.station, point[0], point[1]);
    for (const auto& point : layer.inner_face)
      fmt::format_to(out, "{:.12g} {:.12g} {:.12g}\n", layer.station + layer.height, point[0], point[1]);
  }
  xml += "    </DataArray>\n   </Points>\n";
}

void put_array(std::string& xml, const char* type, const std::string& name, const std::vector<LayerCell>& layers,
               const std::function<std::string(const LayerCell&)>& value) {
  xml += fmt::format("    <DataArray type=\"{}\" Name=\"{}\" format=\"ascii\">\n", type, name);
  for (const LayerCell& layer : layers)
    xml += value(layer) + '\n';
  xml += "    </DataArray>\n";
}

/// Faces of one layer's polyhedron, each a count and its points, seen from outside counter-clockwise: the outer face
/// looks along -x, so its outline, counter-clockwise with y to the right and z up seen along -x, is turned round.
std::string faces_of(std::size_t first, std::size_t count) {
  std::string text = fmt::format("{} {}", 2 + 2 * count, count);
  for (std::size_t k = count; k > 0; --k)
    text += fmt::format(" {}", first + k - 1);
  text += fmt::format(" {}", count);
  for (std::size_t k = 0; k < count; ++k)
    text += fmt::format(" {}", first + count + k);
  for (std::size_t k = 0; k < count; ++k) {
    const std::size_t next = (k + 1) % count;
    text += fmt::format(" 3 {} {} {}", first + k, first + next, first + count + k);
    text += fmt::format(" 3 {} {} {}", first + next, first + count + next, first + count + k);
  }
  return text;
}

std::size_t face_numbers(std::size_t count) {
  return 1 + 2 * (1 + count) + 2 * count * 4;
}

void put_cells(std::string& xml, const std::vector<LayerCell>& layers) {
  xml += "   <Cells>\n";
  std::size_t first = 0, points_end = 0, faces_end = 0;
  put_array(xml, "Int64", "connectivity", layers, [&](const LayerCell& layer) {
    std::string text;
    for (std::size_t k = 0; k < 2 * layer.outer_face.size(); ++k)
      text += fmt::format("{}{}", k == 0 ? "" : " ", first + k);
    first += 2 * layer.outer_face.size();
    return text;
  });
  put_array(xml, "Int64", "offsets", layers, [&](const LayerCell& layer) {
    points_end += 2 * layer.outer_face.size();
    return fmt::format("{}", points_end);
  });
  put_array(xml, "UInt8", "types", layers, [](const LayerCell&) { return fmt::format("{}", polyhedron); });
  first = 0;
  put_array(xml, "Int64", "faces", layers, [&](const LayerCell& layer) {
    const std::string text = faces_of(first, layer.outer_face.size());
    first += 2 * layer.outer_face.size();
    return text;
  });
  put_array(xml, "Int64", "faceoffsets", layers, [&](const LayerCell& layer) {
    faces_end += face_numbers(layer.outer_face.size());
    return fmt::format("{}", faces_end);
  });
  xml += "   </Cells>\n";
}

void put_values(std::string& xml, const std::vector<LayerCell>& layers) {
  xml += "   <CellData Scalars=\"relative_density_-\">\n";
  const auto number = [](double value) { return fmt::format("{:.10g}", value); };
  put_array(xml, "Float64", "relative_density_-", layers,
            [&](const LayerCell& l) { return number(l.relative_density); });
  put_array(xml, "Float64", "strut_or_wall_mm", layers, [&](const LayerCell& l) { return number(1e3 * l.size); });
  put_array(xml, "Float64", "collapse_force_kN", layers,
            [&](const LayerCell& l) { return number(1e-3 * l.collapse_force); });
  put_array(xml, "Int64", "crush_order_-", layers,
            [](const LayerCell& l) { return fmt::format("{}", l.crush_order); });
  xml += "   </CellData>\n";
}

} // namespace

std::string write_vtu(const std::vector<LayerCell>& layers) {
  if (layers.empty())
    throw OutOfDomain("VTK: the structure has no layer");
  std::size_t points = 0;
  for (std::size_t place = 0; place < layers.size(); ++place) {
    require_layer(layers[place], place);
    points += 2 * layers[place].outer_face.size();
  }
  std::string xml = "<?xml version=\"1.0\"?>\n"
                    "<VTKFile type=\"UnstructuredGrid\" version=\"0.1\" byte_order=\"LittleEndian\">\n"
                    " <UnstructuredGrid>\n";
  xml += fmt::format("  <Piece NumberOfPoints=\"{}\" NumberOfCells=\"{}\">\n", points, layers.size());
  put_points(xml, layers);
  put_cells(xml, layers);
  put_values(xml, layers);
  return xml + "  </Piece>\n </UnstructuredGrid>\n</VTKFile>\n";
}

} // namespace crushwright
