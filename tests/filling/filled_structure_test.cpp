#include "crushwright/errors.hpp"
#include "crushwright/filling.hpp"
#include "filling/drawn_lattice.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>

using namespace crushwright;

namespace {

const Catalogue& catalogue() {
  static const Catalogue shipped({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
  return shipped;
}

/// A prismatic box of our own, 60 x 60 x 90 mm.
CrashCase box_case(const std::string& lattice, const std::string& more = "") {
  return read_case_text(fmt::format(R"(schema: 1
title: An invented box
structures:
  left:
    at: {{y: 300 mm}}
    mirrored_as: right
    sections:
      shape: rectangle
      stations:
        - {{station: 0 mm, width: 60 mm, height: 60 mm}}
        - {{station: 90 mm, width: 60 mm, height: 60 mm}}
    lattice: {{material: AlSi10Mg-stress-relieved, {}}}
{}impacts:
  drop:
    striker: {{id: mass, mass: 20 kg}}
    struck: {{id: rig, held: true}}
    closing_speed: 3 m/s
    share: {{left: 50 %, right: 50 %}}
)",
                                    lattice, more),
                        "box.yaml");
}

FilledStructure filled(const std::string& lattice, const std::string& more = "", const char* id = "left") {
  return filled_structure(box_case(lattice, more), catalogue(), id);
}

std::string message(const std::string& lattice, const char* id = "left") {
  try {
    (void)filled(lattice, "", id);
  } catch (const InputError& fault) {
    return fault.what();
  }
  return "accepted";
}

bool has_note(const FilledStructure& body, const std::string& part) {
  return std::any_of(body.notes.begin(), body.notes.end(),
                     [&](const std::string& note) { return note.find(part) != std::string::npos; });
}

} // namespace

TEST_CASE("real metal and homogenised estimate of a body of many cells agree, and their difference adds up") {
  const FilledStructure body = filled("cell: bcc, cell_edge: 6 mm, strut: 0.9 mm, loose_ends: keep");
  const FillReport& report = body.struts->report;
  CHECK(report.room == Approx(60e-3 * 60e-3 * 90e-3).epsilon(1e-3));
  CHECK(report.estimated == Approx(relative_density(body.cell, 0.15) * report.room).epsilon(1e-3));
  CHECK(report.difference.total() == Approx(report.metal_inside.value - report.estimated).margin(1e-12));
  // Ten cells by ten by fifteen: surface effects are a few per cent.
  CHECK(body.lattice_mass() == Approx(body.estimated_mass()).epsilon(0.05));
  CHECK(body.layer_mass == Approx(body.estimated_mass()).epsilon(1e-3));
}

TEST_CASE(
    "the sampled metal of a sheet lattice is the catalogue's density of its room, within three standard errors") {
  const FilledStructure body = filled("cell: gyroid_sheet, cell_edge: 10 mm, wall: 0.6 mm");
  const WallFill& walls = *body.walls;
  CHECK(walls.room == Approx(60e-3 * 60e-3 * 90e-3).epsilon(2e-3));
  CHECK(walls.cells == Approx(6 * 6 * 9).epsilon(2e-3));
  CHECK(walls.estimated == Approx(relative_density(body.cell, 0.06) * walls.room).epsilon(1e-9));
  CHECK(std::abs(walls.metal.value - walls.estimated) < 3 * walls.metal.error);
  CHECK(walls.metal.error < 0.01 * walls.metal.value);
  CHECK(walls.smallest == Approx(0.6e-3));
}

TEST_CASE("the same walls sampled twice are the same to the last bit") {
  const FilledStructure body = filled("cell: primitive_sheet, cell_edge: 12 mm, wall: 1 mm");
  CHECK(sampled_fill(body, 20'000).metal.value == sampled_fill(body, 20'000).metal.value);
}

TEST_CASE("skin and end plates take their room from the lattice, and the notes say so") {
  const std::string more = "    skin: {material: AlSi10Mg-T6, thickness: 1 mm}\n"
                           "    end_plates: {material: AlSi10Mg-T6, tip_thickness: 2 mm, root_thickness: 4 mm}\n";
  const FilledStructure body = filled("cell: bcc, cell_edge: 6 mm, strut: 0.9 mm", more);
  CHECK(body.struts->report.room == Approx(58e-3 * 58e-3 * 84e-3).epsilon(1e-3));
  CHECK(has_note(body, "End plates take 6 mm of the length"));
  CHECK(has_note(body, "The skin is measured at right angles"));
  for (const auto& node : body.struts->lattice.body.nodes) {
    CHECK(node[0] > 2e-3 - 1e-6);
    CHECK(node[0] < 86e-3 + 1e-6);
  }
}

TEST_CASE("a mirror is filled as its original, which names it") {
  const FilledStructure body = filled("cell: bcc, cell_edge: 12 mm, strut: 1.5 mm", "", "right");
  CHECK(body.id == "left");
  CHECK(body.mirrors == std::vector<std::string>{"right"});
}

TEST_CASE("a stated origin and turn move the lattice and nothing else") {
  const std::string lattice = "cell: kelvin, cell_edge: 12 mm, strut: 1.2 mm";
  const FilledStructure plain = filled(lattice);
  const FilledStructure moved = filled(lattice + ", placement: {origin: [3 mm, 1 mm, 2 mm], turn: 20 deg}");
  CHECK(moved.placement.origin == std::array<double, 3>{3e-3, 1e-3, 2e-3});
  CHECK(moved.placement.axes[0][0] == Approx(1));
  CHECK(moved.placement.axes[1][2] == Approx(std::sin(std::acos(-1.0) / 9)));
  // The room is integrated over the lattice's own cells, which cut the body in other places, to some 1e-5.
  CHECK(moved.struts->report.room == Approx(plain.struts->report.room).epsilon(5e-5));
  CHECK(moved.estimated_mass() == Approx(plain.estimated_mass()).epsilon(5e-5));
}

TEST_CASE("a size factor thickens the struts where it says so") {
  const FilledStructure body = filled("cell: bcc, cell_edge: 6 mm, strut: 0.9 mm, size_factor: {station: [0 mm], y: "
                                      "[-30 mm, 30 mm], values: [1.0, 1.2]}");
  CHECK(body.struts->report.smallest_diameter == Approx(0.9e-3).epsilon(0.01));
  CHECK(body.struts->report.largest_diameter == Approx(1.08e-3).epsilon(0.01));
  for (const BodyStrut& strut : body.struts->lattice.body.struts) {
    const double y = body.struts->lattice.body.nodes[static_cast<std::size_t>(strut.from)][1];
    CHECK(strut.from_radius == Approx(0.45e-3 * (1.1 + 0.1 * y / 30e-3)).epsilon(1e-9));
  }
}

TEST_CASE("what cannot be filled is refused at the line of the case") {
  CHECK(message("cell: bcc, cell_edge: 6 mm, strut: 0.9 mm", "middle") ==
        "box.yaml:3:1: structures: there is no structure `middle`\n"
        "    3 | structures:\n"
        "      | ^\n"
        "   Name one of these: left, right.");
  CHECK(message("cell: metal_foam_closed, relative_density: 12 %").find("has no strut or wall that can be placed") !=
        std::string::npos);
  CHECK(message("cell: bcc, cell_edge: 6 mm, strut: 5.9 mm").find("Change the lattice, the skin or the body.") !=
        std::string::npos);
}
