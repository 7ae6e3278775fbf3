#include "crash_case/catalogue_references.hpp"

#include "crash_case/sample_case.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>
#include <initializer_list>

using namespace crushwright;
using namespace sample_case;

namespace {

/// What is said of a case against a catalogue of two cells and two materials.
std::string reference_message(const std::string& changed) {
  const TemporaryFolder folder("references");
  for (const char* file : {"unit_cells/bcc.yaml", "unit_cells/octet.yaml", "base_materials/AlSi10Mg-T6.yaml",
                           "base_materials/AlSi10Mg-stress-relieved.yaml"})
    folder.write(file, "schema: 1\n"); // names alone are looked at
  const Catalogue catalogue({folder.path()});
  try {
    check_catalogue_references(read(changed), catalogue);
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

} // namespace

TEST_CASE("an unknown cell is shown at its line with the nearest spelling") {
  CHECK(reference_message(with("cell: bcc", "cell: bbc")) ==
        "boxes.yaml:15:13: structures.left.lattice.cell: the catalogue has no unit cell `bbc`\n"
        "   15 |       cell: bbc\n"
        "      |             ^\n"
        "   Did you mean `bcc`? Known: bcc, octet.\n"
        "   Use one of these, or add unit_cells/bbc.yaml to a catalogue folder of your own "
        "(docs/catalogue_format.md).");
}

TEST_CASE("an unknown material is shown wherever the case names it") {
  CHECK(reference_message(with("material: AlSi10Mg-stress-relieved", "material: AlSi10Mg-stress-releived")) ==
        "boxes.yaml:16:17: structures.left.lattice.material: the catalogue has no base material "
        "`AlSi10Mg-stress-releived`\n"
        "   16 |       material: AlSi10Mg-stress-releived\n"
        "      |                 ^\n"
        "   Did you mean `AlSi10Mg-stress-relieved`? Known: AlSi10Mg-T6, AlSi10Mg-stress-relieved.\n"
        "   Use one of these, or add base_materials/AlSi10Mg-stress-releived.yaml to a catalogue folder of your own "
        "(docs/catalogue_format.md).");
  CHECK(reference_message(with("skin: {material: AlSi10Mg-T6", "skin: {material: AlSi10Mg-T5")) ==
        "boxes.yaml:19:22: structures.left.skin.material: the catalogue has no base material `AlSi10Mg-T5`\n"
        "   19 |     skin: {material: AlSi10Mg-T5, thickness: 0.8 mm}\n"
        "      |                      ^\n"
        "   Did you mean `AlSi10Mg-T6`? Known: AlSi10Mg-T6, AlSi10Mg-stress-relieved.\n"
        "   Use one of these, or add base_materials/AlSi10Mg-T5.yaml to a catalogue folder of your own "
        "(docs/catalogue_format.md).");
  CHECK(reference_message(with("end_plates: {material: AlSi10Mg-T6", "end_plates: {material: steel")) ==
        "boxes.yaml:20:28: structures.left.end_plates.material: the catalogue has no base material `steel`\n"
        "   20 |     end_plates: {material: steel, root_thickness: 4 mm}\n"
        "      |                            ^\n"
        "   Known: AlSi10Mg-T6, AlSi10Mg-stress-relieved.\n"
        "   Use one of these, or add base_materials/steel.yaml to a catalogue folder of your own "
        "(docs/catalogue_format.md).");
}

TEST_CASE("a comparison names cells and materials of the catalogue") {
  CHECK(reference_message(std::string(text) +
                          "compare: {cells: [bcc, otcet], materials: [AlSi10Mg-T6], relative_densities: [10 %]}\n") ==
        "boxes.yaml:34:24: compare.cells[1]: the catalogue has no unit cell `otcet`\n"
        "   34 | compare: {cells: [bcc, otcet], materials: [AlSi10Mg-T6], relati...\n"
        "      |                        ^\n"
        "   Did you mean `octet`? Known: bcc, octet.\n"
        "   Use one of these, or add unit_cells/otcet.yaml to a catalogue folder of your own "
        "(docs/catalogue_format.md).");
  CHECK(reference_message(std::string(text) +
                          "compare: {cells: [bcc], materials: [AlSi10Mg], relative_densities: [10 %]}\n") ==
        "boxes.yaml:34:37: compare.materials[0]: the catalogue has no base material `AlSi10Mg`\n"
        "   34 | compare: {cells: [bcc], materials: [AlSi10Mg], relative_densities: [10 %]}\n"
        "      |                                     ^\n"
        "   Did you mean `AlSi10Mg-T6`? Known: AlSi10Mg-T6, AlSi10Mg-stress-relieved.\n"
        "   Use one of these, or add base_materials/AlSi10Mg.yaml to a catalogue folder of your own "
        "(docs/catalogue_format.md).");
}

TEST_CASE("a case whose names are all in the catalogue is accepted") {
  CHECK(reference_message(text) == "no error");
}
