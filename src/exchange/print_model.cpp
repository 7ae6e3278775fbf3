#include "exchange/print_model.hpp"

#include "crushwright/errors.hpp"
#include "exchange/xml_text.hpp"

#include <fmt/compile.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace crushwright {
namespace {

constexpr double millimetre = 1e3;
constexpr double file_step = 1e-4;     // mm: the last digit that is written
constexpr double shortest_beam = 1e-3; // mm: shorter ones may be left out by a reader
constexpr const char* core_space = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
constexpr const char* beam_space = "http://schemas.microsoft.com/3dmanufacturing/beamlattice/2017/02";

std::string heading(const PrintFileText& text, bool beams) {
  std::string xml = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  xml += fmt::format("<model unit=\"millimeter\" xml:lang=\"en-US\" xmlns=\"{}\"", core_space);
  if (beams)
    xml += fmt::format(" xmlns:b=\"{}\" requiredextensions=\"b\"", beam_space);
  xml += ">\n";
  if (!text.title.empty())
    xml += fmt::format(" <metadata name=\"Title\">{}</metadata>\n", xml_escaped(text.title));
  return xml + " <resources>\n";
}

std::string object_opening(int id, const std::string& name) {
  return fmt::format("  <object id=\"{}\" type=\"model\"{}>\n   <mesh>\n", id,
                     name.empty() ? "" : fmt::format(" name=\"{}\"", xml_escaped(name)));
}

constexpr const char* object_closing = "   </mesh>\n  </object>\n";

void put_vertices(std::string& xml, const std::vector<std::array<double, 3>>& points) {
  xml += "    <vertices>\n";
  auto out = std::back_inserter(xml);
  for (const auto& point : points) {
    for (double coordinate : point)
      if (!std::isfinite(coordinate))
        throw OutOfDomain("3MF: a point has a coordinate that is not finite");
    // + 0.0 makes a negative zero a plain one.
    fmt::format_to(out, FMT_COMPILE("<vertex x=\"{:.4f}\" y=\"{:.4f}\" z=\"{:.4f}\"/>\n"),
                   millimetre * point[0] + 0.0, millimetre * point[1] + 0.0, millimetre * point[2] + 0.0);
  }
  xml += "    </vertices>\n";
}

void put_triangles(std::string& xml, const TriangleMesh& mesh) {
  xml += "    <triangles>\n";
  auto out = std::back_inserter(xml);
  for (const auto& triangle : mesh.triangles)
    fmt::format_to(out, FMT_COMPILE("<triangle v1=\"{}\" v2=\"{}\" v3=\"{}\"/>\n"), triangle[0], triangle[1],
                   triangle[2]);
  xml += "    </triangles>\n";
}

void put_mesh(std::string& xml, int id, const std::string& name, const TriangleMesh& mesh) {
  xml += object_opening(id, name);
  put_vertices(xml, mesh.points);
  put_triangles(xml, mesh);
  xml += object_closing;
}

void require_strut(const StrutBody& body, std::size_t place) {
  const BodyStrut& strut = body.struts[place];
  const auto count = static_cast<std::int64_t>(body.nodes.size());
  if (strut.from < 0 || strut.to < 0 || strut.from >= count || strut.to >= count || strut.from == strut.to)
    throw OutOfDomain(fmt::format("3MF: strut {} runs from node {} to node {}; expected two different ones of {}",
                                  place, strut.from, strut.to, count));
  for (double radius : {strut.from_radius, strut.to_radius})
    if (!(std::isfinite(radius) && millimetre * radius >= file_step))
      throw OutOfDomain(fmt::format("3MF: strut {} has a radius of {:g} mm; the file holds {:g} mm and more", place,
                                    millimetre * radius, file_step));
  const auto& a = body.nodes[std::size_t(strut.from)];
  const auto& b = body.nodes[std::size_t(strut.to)];
  const double length = millimetre * std::hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
  if (!(length >= shortest_beam))
    throw OutOfDomain(
        fmt::format("3MF: strut {} is {:g} mm long; the file holds {:g} mm and more. Join its two nodes.", place,
                    length, shortest_beam));
}

/// The commonest radius need not be written at each beam, but every one is: not all readers take the default.
double largest_radius(const StrutBody& body) {
  double largest = 0;
  for (const BodyStrut& strut : body.struts)
    largest = std::max({largest, strut.from_radius, strut.to_radius});
  return largest;
}

void put_beams(std::string& xml, const StrutBody& body) {
  xml += fmt::format("    <b:beamlattice radius=\"{:.4f}\" minlength=\"{:.4f}\" cap=\"sphere\">\n     <b:beams>\n",
                     millimetre * largest_radius(body), shortest_beam);
  auto out = std::back_inserter(xml);
  for (std::size_t place = 0; place < body.struts.size(); ++place) {
    require_strut(body, place);
    const BodyStrut& strut = body.struts[place];
    fmt::format_to(out, FMT_COMPILE("<b:beam v1=\"{}\" v2=\"{}\" r1=\"{:.4f}\" r2=\"{:.4f}\"/>\n"), strut.from,
                   strut.to, millimetre * strut.from_radius, millimetre * strut.to_radius);
  }
  xml += "     </b:beams>\n    </b:beamlattice>\n";
}

std::string closing(int objects) {
  std::string xml = " </resources>\n <build>\n";
  for (int id = 1; id <= objects; ++id)
    xml += fmt::format("  <item objectid=\"{}\"/>\n", id);
  return xml + " </build>\n</model>\n";
}

} // namespace

std::string model_of_struts(const StrutBody& body, const TriangleMesh& skin, const PrintFileText& text) {
  if (body.struts.empty())
    throw OutOfDomain("3MF: the lattice has no strut");
  std::string xml = heading(text, true);
  xml.reserve(70 * (body.nodes.size() + body.struts.size()) + 60 * (skin.points.size() + skin.triangles.size()) +
              4096);
  xml += object_opening(1, text.lattice_name);
  put_vertices(xml, body.nodes);
  xml += "    <triangles/>\n";
  put_beams(xml, body);
  xml += object_closing;
  if (!skin.triangles.empty())
    put_mesh(xml, 2, text.skin_name, skin);
  return xml + closing(skin.triangles.empty() ? 1 : 2);
}

std::string model_of_mesh(const TriangleMesh& mesh, const PrintFileText& text) {
  if (mesh.triangles.empty())
    throw OutOfDomain("3MF: the mesh has no triangle");
  std::string xml = heading(text, false);
  put_mesh(xml, 1, text.lattice_name, mesh);
  return xml + closing(1);
}

} // namespace crushwright
