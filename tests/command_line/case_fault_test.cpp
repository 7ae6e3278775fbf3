#include "crash_case/sample_case.hpp"
#include "crushwright/estimate.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using namespace sample_case;

namespace {

/// What is said of a case when its structures are put together with the catalogue.
std::string model_message(const std::string& changed) {
  try {
    structure_models(read(changed), own_catalogue());
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

} // namespace

TEST_CASE("a cell is sized by what it is made of") {
  CHECK(model_message(with("strut: 1.4 mm", "wall: 1.4 mm")) ==
        "boxes.yaml:18:13: structures.left.lattice.wall: bcc is sized by `strut`, not by `wall`\n"
        "   18 |       wall: 1.4 mm\n"
        "      |             ^\n"
        "   Write `strut:` instead.");
}

TEST_CASE("a size outside the range of the catalogue entry is refused") {
  CHECK(model_message(with("strut: 1.4 mm", "strut: 9 mm")) ==
        "boxes.yaml:18:14: structures.left.lattice.strut: Body-centred cubic (BCC): strut diameter over cell edge is "
        "0.9; the catalogue entry holds from 0.02 to 0.37.\n"
        "   18 |       strut: 9 mm\n"
        "      |              ^\n"
        "   With a cell edge of 10 mm the strut diameter may be 0.2 mm to 3.7 mm; change one of the two.");
  CHECK(model_message(with("strut: 1.4 mm", "strut: {tip: 1.4 mm, root: 0.1 mm}")) ==
        "boxes.yaml:18:7: structures.left.lattice.strut: Body-centred cubic (BCC): strut diameter over cell edge is "
        "0.01; the catalogue entry holds from 0.02 to 0.37.\n"
        "   18 |       strut: {tip: 1.4 mm, root: 0.1 mm}\n"
        "      |       ^\n"
        "   With a cell edge of 10 mm the strut diameter may be 0.2 mm to 3.7 mm; change one of the two.");
  CHECK(model_message(with("strut: 1.4 mm", "strut: 0.9 mm\n      process_offset: -0.95 mm")) ==
        "boxes.yaml:18:14: structures.left.lattice.strut: Body-centred cubic (BCC): strut diameter over cell edge is "
        "-0.005; the catalogue entry holds from 0.02 to 0.37.\n"
        "   18 |       strut: 0.9 mm\n"
        "      |              ^\n"
        "   With a cell edge of 10 mm the strut diameter may be 0.2 mm to 3.7 mm; change one of the two.");
}

TEST_CASE("a weighed mass that no strut explains is refused") {
  CHECK(model_message(with("      strut: 1.4 mm\n", "      strut: 1.4 mm\n    as_built: {weighed_mass: 0.3 kg}\n")) ==
        "boxes.yaml:19:30: structures.left.as_built.weighed_mass: 0.3 kg is less than skin and plates alone, 0.5868 "
        "kg\n"
        "   19 |     as_built: {weighed_mass: 0.3 kg}\n"
        "      |                              ^\n"
        "   Weigh the whole printed structure, without fasteners, or correct skin and plate thickness.");
  CHECK(model_message(with("      strut: 1.4 mm\n", "      strut: 1.4 mm\n    as_built: {weighed_mass: 30 kg}\n")) ==
        "boxes.yaml:19:30: structures.left.as_built.weighed_mass: 30 kg leaves 29.41 kg for the lattice, which no "
        "size of bcc between 14.29 % and 264.3 % of the drawing gives\n"
        "   19 |     as_built: {weighed_mass: 30 kg}\n"
        "      |                              ^\n"
        "   Check the mass, the sections and the skin thickness.");
}

TEST_CASE("a skin that leaves no room to fold is refused") {
  CHECK(model_message(with("thickness: 0.8 mm", "thickness: 50 mm")) ==
        "boxes.yaml:14:5: structures.left.lattice: a skin 50.00 mm thick on a perimeter of 240.8 mm is too thick to "
        "fold: the laws need a diameter of at least 4 thicknesses\n"
        "   14 |     lattice:\n"
        "      |     ^\n"
        "   Change the lattice, the skin or the sections.");
}
