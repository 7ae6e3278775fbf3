#include "crash_case/sample_case.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace crushwright;
using namespace sample_case;

TEST_CASE("a case without structures is refused") {
  CHECK(
      message(with("structures:\n  left:", "structure:\n  left:")) ==
      "boxes.yaml:3:1: unknown key `structure` at the top level\n"
      "    3 | structure:\n"
      "      | ^\n"
      "   Did you mean `structures`? Known keys: schema, title, description, vehicle, invented, "
      "service_temperature, structures, impacts, limits, scatter, size, compare, printing, service_loads, fatigue.\n"
      "   Correct the spelling or delete the line.");
}

TEST_CASE("no structure may be called by the word for all of them") {
  CHECK(message(with("  left:\n    at", "  structures:\n    at")) ==
        "boxes.yaml:3:1: structures: `structures` is the word for all structures together and cannot name one\n"
        "    3 | structures:\n"
        "      | ^\n"
        "   Give the structure another name.");
}

TEST_CASE("a mirrored structure needs a free name") {
  CHECK(message(with("mirrored_as: right", "mirrored_as: left")) ==
        "boxes.yaml:6:18: structures.left.mirrored_as: `left` is the name of another structure\n"
        "    6 |     mirrored_as: left\n"
        "      |                  ^\n"
        "   Write a name that no other structure has.");
  CHECK(message(with("mirrored_as: right", "mirrored_as: right.hand")) ==
        "boxes.yaml:6:18: structures.left.mirrored_as: `right.hand` cannot name the mirrored structure\n"
        "    6 |     mirrored_as: right.hand\n"
        "      |                  ^\n"
        "   Make the name of letters (a to z), digits, `_` and `-`; `structures` means all together.");
}

TEST_CASE("a structure in the middle of the car has no mirror image beside it") {
  CHECK(message(with("y: 400 mm", "y: 0 mm")) == "boxes.yaml:6:18: structures.left.mirrored_as: `right` would lie on "
                                                 "left itself, whose axis is in the middle of the car\n"
                                                 "    6 |     mirrored_as: right\n"
                                                 "      |                  ^\n"
                                                 "   Place the structure with `at: {y: ...}`, or delete the line.");
}

TEST_CASE("a structure needs something that crushes") {
  CHECK(message(with("    lattice:\n      cell: bcc\n      material: AlSi10Mg-stress-relieved\n      cell_edge: 10 "
                     "mm\n      strut: 1.4 mm\n    skin: {material: AlSi10Mg-T6, thickness: 0.8 mm}\n",
                     "")) ==
        "boxes.yaml:4:3: structures.left: the structure has neither a lattice nor a skin, so nothing that crushes\n"
        "    4 |   left:\n"
        "      |   ^\n"
        "   Add a `lattice:` block, a `skin:` block, or both.");
}

TEST_CASE("a part may not reach past the structure") {
  CHECK(message(with("to: 100 mm", "to: 500 mm")) == "boxes.yaml:13:29: structures.left.parts.tip.to: the part ends "
                                                     "at 500 mm, past the end of the structure at 400 mm\n"
                                                     "   13 |       tip: {from: 0 mm, to: 500 mm}\n"
                                                     "      |                             ^\n"
                                                     "   End the part at or before the last station of `sections`.");
}

TEST_CASE("the number of layers has bounds") {
  CHECK(message(with("    parts:", "    layers: 3\n    parts:")) ==
        "boxes.yaml:12:13: structures.left.layers must be a whole number from 4 to 2000, not `3`\n"
        "   12 |     layers: 3\n"
        "      |             ^\n"
        "   Write it in digits alone.");
}

TEST_CASE("a lattice needs one size") {
  CHECK(message(with("      strut: 1.4 mm\n", "")) ==
        "boxes.yaml:14:5: structures.left.lattice: the lattice has no size\n"
        "   14 |     lattice:\n"
        "      |     ^\n"
        "   Add `strut: 1.2 mm` (strut cells), `wall: 0.8 mm` (sheets, honeycombs) or `relative_density: 12 %` "
        "(foams).");
  CHECK(message(with("      strut: 1.4 mm\n", "      strut: 1.4 mm\n      wall: 1 mm\n")) ==
        "boxes.yaml:19:13: structures.left.lattice.wall: the lattice is already sized by `strut`\n"
        "   19 |       wall: 1 mm\n"
        "      |             ^\n"
        "   Keep one of the two.");
}

TEST_CASE("a graded size has both ends and nothing else") {
  CHECK(message(with("strut: 1.4 mm", "strut: {tip: 1.4 mm}")) ==
        "boxes.yaml:18:7: `root` is missing in structures.left.lattice.strut\n"
        "   18 |       strut: {tip: 1.4 mm}\n"
        "      |       ^\n"
        "   Add a line, for instance `root: 275 mm`.");
  CHECK(message(with("strut: 1.4 mm", "strut: {tip: 1.4 mm, root: 1.5 mm, source: x}")) ==
        "boxes.yaml:18:42: unknown key `source` in structures.left.lattice.strut\n"
        "   18 |       strut: {tip: 1.4 mm, root: 1.5 mm, source: x}\n"
        "      |                                          ^\n"
        "   Known keys: tip, root.\n"
        "   Correct the spelling or delete the line.");
}

TEST_CASE("a lattice of struts needs a cell edge, a foam does not") {
  CHECK(message(with("      cell_edge: 10 mm\n", "")) ==
        "boxes.yaml:14:5: `cell_edge` is missing in structures.left.lattice\n"
        "   14 |     lattice:\n"
        "      |     ^\n"
        "   Add a line, for instance `cell_edge: 275 mm`.");
}

TEST_CASE("a relative density lies between 0 and 1") {
  CHECK(message(with("      strut: 1.4 mm\n", "      relative_density: 120 %\n")) ==
        "boxes.yaml:18:25: structures.left.lattice.relative_density must be more than 0 % and less than 100 %, not "
        "120 %\n"
        "   18 |       relative_density: 120 %\n"
        "      |                         ^\n"
        "   Correct the value or its unit.");
}

TEST_CASE("a crush direction is three digits") {
  CHECK(message(with("cell: bcc", "cell: bcc\n      crush_direction: along")) ==
        "boxes.yaml:16:24: structures.left.lattice.crush_direction: `along` is no direction in cell axes\n"
        "   16 |       crush_direction: along\n"
        "      |                        ^\n"
        "   Write three digits in quotes, for instance \"100\" (a cell edge), \"001\" (a honeycomb's axis), \"110\" "
        "or \"111\".");
  CHECK(message(with("cell: bcc", "cell: bcc\n      crush_direction: 000")) ==
        "boxes.yaml:16:24: structures.left.lattice.crush_direction: `000` is no direction in cell axes\n"
        "   16 |       crush_direction: 000\n"
        "      |                        ^\n"
        "   Write three digits in quotes, for instance \"100\" (a cell edge), \"001\" (a honeycomb's axis), \"110\" "
        "or \"111\".");
}

TEST_CASE("a process offset belongs to a drawn strut or wall") {
  CHECK(message(with("      strut: 1.4 mm\n", "      relative_density: 12 %\n      process_offset: 0.1 mm\n")) ==
        "boxes.yaml:19:23: structures.left.lattice.process_offset: an offset is added to a strut or wall, and this "
        "lattice is sized by its density\n"
        "   19 |       process_offset: 0.1 mm\n"
        "      |                       ^\n"
        "   Delete the line, and state the relative density as it is built.");
  CHECK(message(with("      strut: 1.4 mm\n",
                     "      strut: 1.4 mm\n      process_offset: 0.1 mm\n    as_built: {measured_size: 1.5 mm}\n")) ==
        "boxes.yaml:20:5: structures.left.as_built: the size is measured here, so that the lattice's "
        "`process_offset` would count twice\n"
        "   20 |     as_built: {measured_size: 1.5 mm}\n"
        "      |     ^\n"
        "   Delete the line `process_offset`.");
  CHECK(message(with("strut: 1.4 mm", "strut: 1.4 mm\n      process_offset: 2 mm")) ==
        "boxes.yaml:19:23: structures.left.lattice.process_offset must be at least -1 mm and at most 1 mm, not 2 mm\n"
        "   19 |       process_offset: 2 mm\n"
        "      |                       ^\n"
        "   Correct the value or its unit.");
}

TEST_CASE("what was measured must be there to be measured") {
  CHECK(
      message(with("    lattice:\n      cell: bcc\n      material: AlSi10Mg-stress-relieved\n      cell_edge: 10 "
                   "mm\n      strut: 1.4 mm\n",
                   "    as_built: {weighed_mass: 2 kg}\n")) ==
      "boxes.yaml:14:5: structures.left.as_built: weighing tells the size of a lattice, and this structure has none\n"
      "   14 |     as_built: {weighed_mass: 2 kg}\n"
      "      |     ^\n"
      "   Delete the block, or add a lattice.");
  CHECK(message(with("    skin: {material: AlSi10Mg-T6, thickness: 0.8 mm}\n",
                     "    as_built: {measured_skin_thickness: 1 mm}\n")) ==
        "boxes.yaml:19:41: structures.left.as_built.measured_skin_thickness: the structure has no skin\n"
        "   19 |     as_built: {measured_skin_thickness: 1 mm}\n"
        "      |                                         ^\n"
        "   Delete the line, or add a `skin:` block.");
  CHECK(
      message(with("      strut: 1.4 mm\n", "      relative_density: 12 %\n    as_built: {measured_size: 1 mm}\n")) ==
      "boxes.yaml:19:31: structures.left.as_built.measured_size: this lattice is sized by its relative density and "
      "has no strut or wall to measure\n"
      "   19 |     as_built: {measured_size: 1 mm}\n"
      "      |                               ^\n"
      "   Give the `weighed_mass` instead.");
  CHECK(message(with("      strut: 1.4 mm\n", "      strut: 1.4 mm\n    as_built: {}\n")) ==
        "boxes.yaml:19:5: structures.left.as_built: the block says nothing\n"
        "   19 |     as_built: {}\n"
        "      |     ^\n"
        "   Add `weighed_mass`, `measured_size` or `measured_skin_thickness`, or delete it.");
}

TEST_CASE("a skin has a thickness, and its first peak is not below its folding force") {
  CHECK(message(with("thickness: 0.8 mm", "thickness: 0 mm")) ==
        "boxes.yaml:19:46: structures.left.skin.thickness must be more than 0 mm, not 0 mm\n"
        "   19 |     skin: {material: AlSi10Mg-T6, thickness: 0 mm}\n"
        "      |                                              ^\n"
        "   Correct the value or its unit.");
  CHECK(message(with("thickness: 0.8 mm", "thickness: 0.8 mm, first_peak_ratio: 0.5")) ==
        "boxes.yaml:19:72: structures.left.skin.first_peak_ratio must be at least 1 and at most 20, not 0.5\n"
        "   19 | ...   skin: {material: AlSi10Mg-T6, thickness: 0.8 mm, first_peak_ratio: 0.5}\n"
        "      |                                                                          ^\n"
        "   Correct the value or its unit.");
}

TEST_CASE("a foam needs no cell edge") {
  const CrashCase crash_case =
      read(with("      cell_edge: 10 mm\n      strut: 1.4 mm\n", "      relative_density: 12 %\n"));
  CHECK(crash_case.structures.front().lattice->size_key == "relative_density");
  CHECK(crash_case.structures.front().lattice->size_tip.value == Approx(0.12));
  CHECK(crash_case.structures.front().lattice->cell_edge.value == 0);
}

TEST_CASE("a mirrored structure has the other sign of y and the sections turned about the vertical plane") {
  const CrashCase crash_case =
      read(with("shape: rectangle\n"
                "      stations:\n"
                "        - {station: 0 mm, width: 100 mm, height: 120 mm}\n"
                "        - {station: 400 mm, width: 120 mm, height: 140 mm}\n",
                "shape: polygon\n"
                "      stations:\n"
                "        - {station: 0 mm, corners: [[0 mm, 0 mm], [90 mm, 0 mm], [0 mm, 60 mm]]}\n"
                "        - {station: 400 mm, corners: [[0 mm, 0 mm], [120 mm, 0 mm], [0 mm, 80 mm]], "
                "centre: [15 mm, 5 mm]}\n"));
  REQUIRE(crash_case.structures.size() == 2);
  const StructureInput& left = crash_case.structures[0];
  const StructureInput& right = crash_case.structures[1];
  CHECK(right.id == "right");
  CHECK(right.mirror_of == "left");
  CHECK(left.lateral == Approx(0.4));
  CHECK(right.lateral == Approx(-0.4));
  CHECK(right.vertical == left.vertical);
  CHECK(right.envelope.sections[1].centre[0] == Approx(-0.015));
  CHECK(right.envelope.sections[1].centre[1] == Approx(0.005));
  // The right angle, at the origin of the corners, now opens to negative y; the corners still go counter-clockwise.
  const SectionProperties mirrored = properties_of(right.envelope.sections[0]);
  CHECK(mirrored.area == Approx(0.5 * 0.090 * 0.060));
  CHECK(mirrored == properties_of(left.envelope.sections[0]));
  double outermost = 0;
  for (const auto& corner : right.envelope.sections[0].corners)
    outermost = std::min(outermost, corner[0]);
  CHECK(outermost == Approx(-0.090));
  CHECK(right.envelope.parts.front().id == "tip");
}

TEST_CASE("an absent part of a structure weighs nothing") {
  const CrashCase crash_case = read();
  CHECK(crash_case.structures.front().fixed_mass.value == 0);
  CHECK(crash_case.structures.front().end_plates->tip_thickness.value == 0);
  CHECK(crash_case.structures.front().layer_count == 48);
}

TEST_CASE("an attachment is read with its structure and shared by its mirror") {
  const CrashCase crash_case =
      read(with("    parts:\n", "    attachment: {capacity: 95 kN, stiffness: 30 kN/mm}\n    parts:\n"));
  REQUIRE(crash_case.structures.size() == 2);
  for (const StructureInput& structure : crash_case.structures) {
    REQUIRE(structure.attachment);
    CHECK(structure.attachment->capacity.value == Approx(95e3));
    CHECK(structure.attachment->capacity.path == "structures.left.attachment.capacity");
    CHECK_FALSE(structure.attachment->crush_room);
  }
}
