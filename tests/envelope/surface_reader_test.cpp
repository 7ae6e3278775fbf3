#include "envelope/surface_reader.hpp"

#include "crushwright/errors.hpp"
#include "envelope/case_folder.hpp"
#include "envelope/envelope_reader.hpp"
#include "surface/made_surfaces.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

using namespace crushwright;
using case_folder::CaseFolder;
namespace made = crushwright::made_surfaces;

namespace {

Envelope read(const CaseFolder& folder, const std::string& text) {
  Mapping structure = Mapping::read_text("schema: 1\n" + text, folder.case_file());
  structure.allow({"sections", "surface", "parts"});
  return read_envelope(structure);
}

/// Without the folder, which differs from machine to machine.
std::string message_of(const CaseFolder& folder, const std::string& text) {
  try {
    read(folder, text);
  } catch (const InputError& error) {
    std::string message = error.what();
    const std::string prefix = folder.path().string() + "/";
    for (std::size_t at = message.find(prefix); at != std::string::npos; at = message.find(prefix))
      message.erase(at, prefix.size());
    return message;
  }
  return "no error";
}

/// Longest along x, then z, then y, and no two ends alike.
TriangleMesh wedge() {
  TriangleMesh mesh = made::box({0, 0, 0}, {0.4, 0.06, 0.1});
  for (auto& point : mesh.points)
    point[2] *= 1 + point[0];
  return mesh;
}

/// The axes turned in a ring: what lay along x lies along y, y along z, z along x. Faces stay outward.
TriangleMesh turned(TriangleMesh mesh) {
  for (auto& point : mesh.points)
    point = {point[2], point[0], point[1]};
  return mesh;
}

void same_shape(const Envelope& a, const Envelope& b, double precision = 1e-9) {
  REQUIRE(a.sections.size() == b.sections.size());
  CHECK(a.length() == Approx(b.length()).epsilon(precision));
  for (std::size_t i = 0; i < a.sections.size(); i += 7) {
    const SectionProperties p = properties_of(a.sections[i]), q = properties_of(b.sections[i]);
    CHECK(p.area == Approx(q.area).epsilon(precision));
    CHECK(p.perimeter == Approx(q.perimeter).epsilon(precision));
    CHECK(p.corner_count == q.corner_count);
    CHECK(a.sections[i].figure.centroid[0] == Approx(b.sections[i].figure.centroid[0]).margin(1e-9));
    CHECK(a.sections[i].figure.centroid[1] == Approx(b.sections[i].figure.centroid[1]).margin(1e-9));
  }
}

} // namespace

TEST_CASE("a surface is read in the unit that the case states, and in no other") {
  const CaseFolder folder("envelope_unit");
  folder.write_surface("wedge_mm.ply", wedge(), 1000);
  folder.write_surface("wedge_in.ply", wedge(), 1 / 0.0254);
  folder.write_surface("wedge_m.stl", wedge(), 1);
  folder.write_surface("wedge_cm.ply", wedge(), 100);
  const Envelope millimetres = read(folder, "surface: {file: wedge_mm.ply, unit: mm, crush_axis: +x}\n");
  CHECK(millimetres.length() == Approx(0.4).epsilon(1e-12));
  CHECK(volume_of(millimetres) == Approx(0.4 * 0.06 * 0.1 * 1.2).epsilon(1e-9));
  same_shape(millimetres, read(folder, "surface: {file: wedge_in.ply, unit: in, crush_axis: +x}\n"));
  same_shape(millimetres, read(folder, "surface: {file: wedge_cm.ply, unit: cm, crush_axis: +x}\n"));
  same_shape(millimetres, read(folder, "surface: {file: wedge_m.stl, unit: m, crush_axis: +x}\n"), 1e-6);
  CHECK(millimetres.file->name == "wedge_mm.ply");
  CHECK(millimetres.file->bytes->substr(0, 3) == "ply");
}

TEST_CASE("turning the surface and the axes together changes nothing") {
  const CaseFolder folder("envelope_turned");
  folder.write_surface("wedge.ply", wedge());
  folder.write_surface("turned.ply", turned(wedge()));
  const Envelope plain = read(folder, "surface: {file: wedge.ply, unit: mm, crush_axis: +x, up: +z}\n");
  same_shape(plain, read(folder, "surface: {file: turned.ply, unit: mm, crush_axis: +y, up: +x}\n"));
  same_shape(plain, read(folder, "surface: {file: turned.ply, unit: mm, crush_axis: [0, 2.5, 0], up: [3, 1, 0]}\n"));
}

TEST_CASE("y points left of the crush axis seen from above, and the struck end is where the axis begins") {
  const CaseFolder folder("envelope_frame");
  folder.write_surface("wedge.ply", wedge());
  const Envelope forward = read(folder, "surface: {file: wedge.ply, unit: mm, crush_axis: +x}\n");
  CHECK(forward.sections.front().height == Approx(0.1));
  CHECK(forward.sections.front().figure.centroid[0] == Approx(0.03));
  const Envelope backward = read(folder, "surface: {file: wedge.ply, unit: mm, crush_axis: -x}\n");
  CHECK(backward.sections.front().height == Approx(0.14));
  CHECK(backward.sections.front().figure.centroid[0] == Approx(-0.03));
  CHECK(volume_of(*backward.surface) > 0);
  CHECK(bounds_of(*backward.surface).low[0] == Approx(0).margin(1e-12));
}

TEST_CASE("a slanting crush axis cuts a prism's sections at that slant") {
  const CaseFolder folder("envelope_slant");
  folder.write_surface("bar.ply", made::box({0, 0, 0}, {0.8, 0.06, 0.06}));
  const double slant = 6 * std::numbers::pi / 180;
  const Envelope bar =
      read(folder, fmt::format("surface: {{file: bar.ply, unit: mm, crush_axis: [1, {}, 0]}}\n", std::tan(slant)));
  // Away from the ends the plane lies at that slant to the bar: its section is longer by 1 / cos.
  CHECK(properties_of(section_at(bar, bar.length() / 2)).area == Approx(0.06 * 0.06 / std::cos(slant)).epsilon(1e-9));
  CHECK(volume_of(bar) == Approx(0.8 * 0.06 * 0.06).epsilon(1e-3));
  // At both ends the planes cut a corner off the bar, and the centroid runs across it; between them it leans evenly.
  const Section near = section_at(bar, 0.2), far = section_at(bar, 0.6);
  CHECK(std::atan2(near.figure.centroid[0] - far.figure.centroid[0], 0.4) == Approx(slant).epsilon(1e-4));
}

TEST_CASE("parts are ranges of a surface's length") {
  const CaseFolder folder("envelope_parts");
  folder.write_surface("wedge.ply", wedge());
  const std::string surface = "surface: {file: wedge.ply, unit: mm, crush_axis: +x}\n";
  CHECK(read(folder, surface + "parts: {tip: {from: 0 mm, to: 400 mm}}\n").parts.front().id == "tip");
  CHECK(message_of(folder, surface + "parts: {tip: {from: 0 mm, to: 410 mm}}\n") ==
        "case.yaml:3:31: parts.tip.to: the part ends at 410 mm, past the end of the structure at 400 mm\n"
        "    3 | parts: {tip: {from: 0 mm, to: 410 mm}}\n"
        "      |                               ^\n"
        "   End the part at or before the end of the surface.");
}

TEST_CASE("what is wrong with a surface is said at the case's line") {
  const CaseFolder folder("envelope_faults");
  folder.write_surface("wedge.ply", wedge());
  TriangleMesh open = wedge();
  open.triangles.pop_back();
  folder.write_surface("open.ply", open);
  const auto message = [&](const std::string& text) { return message_of(folder, text); };
  SECTION("no such file") {
    CHECK(message("surface: {file: cone.stl, unit: mm, crush_axis: +x}\n") ==
          "case.yaml:2:17: surface.file: cone.stl: there is no such file\n"
          "    2 | surface: {file: cone.stl, unit: mm, crush_axis: +x}\n"
          "      |                 ^\n"
          "   Put the mesh beside the entry that names it, or correct its name.");
  }
  SECTION("a hole") {
    CHECK(message("surface: {file: open.ply, unit: mm, crush_axis: +x}\n")
              .rfind("case.yaml:2:17: surface.file: open.ply: ", 0) == 0);
  }
  SECTION("no unit: it is asked for, not guessed") {
    CHECK(message("surface: {file: wedge.ply, crush_axis: +x}\n") ==
          "case.yaml:2:1: `unit` is missing in surface\n"
          "    2 | surface: {file: wedge.ply, crush_axis: +...\n"
          "      | ^\n"
          "   Add a line, for instance `unit: mm`.");
  }
  SECTION("an unknown unit") {
    CHECK(message("surface: {file: wedge.ply, unit: ft, crush_axis: +x}\n") ==
          "case.yaml:2:34: surface.unit cannot be `ft`\n"
          "    2 | surface: {file: wedge.ply, unit: ft, crush_axis: +x}\n"
          "      |                                  ^\n"
          "   Write one of: mm, cm, m, in.");
  }
  SECTION("up along the crush axis") {
    CHECK(message("surface: {file: wedge.ply, unit: mm, crush_axis: +z}\n") ==
          "case.yaml:2:50: surface.crush_axis: up lies along the crush axis, so that no side is the left one\n"
          "    2 | surface: {file: wedge.ply, unit: mm, crush_axis: +z}\n"
          "      |                                                  ^\n"
          "   State `up`, the file's axis that points away from the ground, for instance `up: \"+y\"`.");
    CHECK(message("surface: {file: wedge.ply, unit: mm, crush_axis: +x, up: -x}\n") ==
          "case.yaml:2:58: surface.up: up lies along the crush axis, so that no side is the left one\n"
          "    2 | surface: {file: wedge.ply, unit: mm, crush_axis: +x, up: -x}\n"
          "      |                                                          ^\n"
          "   State `up`, the file's axis that points away from the ground, for instance `up: \"+y\"`.");
  }
  SECTION("no direction") {
    CHECK(message("surface: {file: wedge.ply, unit: mm, crush_axis: [0, 0, 0]}\n") ==
          "case.yaml:2:38: surface.crush_axis: [0, 0, 0] points nowhere\n"
          "    2 | surface: {file: wedge.ply, unit: mm, crush_axis: [0, 0, 0]}\n"
          "      |                                      ^\n"
          "   Write for instance \"+x\" or [1, 0, 0.05].");
    CHECK(
        message("surface: {file: wedge.ply, unit: mm, crush_axis: [1, 0]}\n") ==
        "case.yaml:2:38: surface.crush_axis: three numbers, [x, y, z], were expected; there are 2\n"
        "    2 | surface: {file: wedge.ply, unit: mm, crush_axis: [1, 0]}\n"
        "      |                                      ^\n"
        "   Write a signed axis, for instance \"+x\", or a direction in the file's axes, for instance [1, 0, 0.05].");
    CHECK(message("surface: {file: wedge.ply, unit: mm, crush_axis: x}\n") ==
          "case.yaml:2:50: surface.crush_axis cannot be `x`\n"
          "    2 | surface: {file: wedge.ply, unit: mm, crush_axis: x}\n"
          "      |                                                  ^\n"
          "   Write one of: +x, -x, +y, -y, +z, -z.");
  }
  SECTION("both or neither of sections and surface") {
    CHECK(message("surface: {file: wedge.ply, unit: mm, crush_axis: +x}\nsections: {shape: ellipse}\n") ==
          "case.yaml:2:1: surface: the outer shape is already given by `sections`\n"
          "    2 | surface: {file: wedge.ply, unit: mm, cru...\n"
          "      | ^\n"
          "   Keep one of the two.");
    CHECK(message("parts: {}\n") == "case.yaml:1:1: the structure has no outer shape\n"
                                    "    1 | schema: 1\n"
                                    "      | ^\n"
                                    "   Add `sections:`, or `surface:` with a closed surface from CAD.");
  }
}
