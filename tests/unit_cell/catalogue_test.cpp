#include "crushwright/errors.hpp"
#include "surface/sample_meshes.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>
#include <string>

using namespace crushwright;

namespace {

const std::string own_material = "schema: 1\n"
                                 "id: own-alloy\n"
                                 "name: Own alloy\n"
                                 "alloy: X\n"
                                 "condition: as built\n"
                                 "process: laser powder bed fusion\n"
                                 "description: Invented for this test.\n"
                                 "density: {value: 2700 kg/m^3, standing: memory}\n";

} // namespace

TEST_CASE("a material dropped as a YAML file is in the catalogue") {
  const TemporaryFolder folder("dropped");
  folder.write("base_materials/own-alloy.yaml", own_material);
  Catalogue catalogue({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices", folder.path()});
  CHECK(catalogue.material("own-alloy").density->value == 2700);
  CHECK(catalogue.material("AlSi10Mg-T6").alloy == "AlSi10Mg");
}

TEST_CASE("a later folder replaces an entry of the same name") {
  const TemporaryFolder first("first");
  const TemporaryFolder second("second");
  first.write("base_materials/own-alloy.yaml", own_material);
  std::string heavier = own_material;
  heavier.replace(heavier.find("2700"), 4, "2800");
  second.write("base_materials/own-alloy.yaml", heavier);
  Catalogue catalogue({first.path(), second.path()});
  CHECK(catalogue.material_ids() == std::vector<std::string>{"own-alloy"});
  CHECK(catalogue.material("own-alloy").density->value == 2800);
  const auto used = catalogue.files_used();
  REQUIRE(used.size() == 1);
  CHECK(used[0].first == "base_materials/own-alloy.yaml");
  CHECK(used[0].second == heavier);
}

TEST_CASE("only files that were asked for count as used, sorted by name") {
  Catalogue catalogue = own_catalogue();
  CHECK(catalogue.files_used().empty());
  catalogue.cell("octet");
  catalogue.cell("bcc");
  catalogue.material("316L-as-built");
  catalogue.cell("bcc");
  const auto used = catalogue.files_used();
  REQUIRE(used.size() == 3);
  CHECK(used[0].first == "base_materials/316L-as-built.yaml");
  CHECK(used[1].first == "unit_cells/bcc.yaml");
  CHECK(used[2].first == "unit_cells/octet.yaml");
  CHECK(used[1].second.find("id: bcc") != std::string::npos);
}

TEST_CASE("the mesh of a solid counts as used beside its entry") {
  const TemporaryFolder folder("solid");
  folder.write("unit_cells/own.yaml",
               "schema: 1\nid: own\nname: Own\ndescription: Invented.\nclass: solid\n"
               "behaviour: bending\nsymmetry: tetragonal\nmesh: own.off\nmesh_cell_edge: 10\n");
  const std::string mesh = sample_meshes::off_text(sample_meshes::channel_cell());
  folder.write("unit_cells/own.off", mesh);
  Catalogue catalogue({folder.path()});
  CHECK(catalogue.cell("own").true_density_coefficients.front() == Approx(0.75).epsilon(1e-12));
  const auto used = catalogue.files_used();
  REQUIRE(used.size() == 2);
  CHECK(used[0].first == "unit_cells/own.off");
  CHECK(used[0].second == mesh);
}

TEST_CASE("an unknown material is named with the nearest spelling and the known ones") {
  const TemporaryFolder folder("unknown");
  folder.write("base_materials/own-alloy.yaml", own_material);
  Catalogue catalogue({folder.path()});
  CHECK_THROWS_MATCHES(
      catalogue.material("own-aloy"), InputError,
      Catch::Matchers::Message(
          "base_materials/ of the catalogue has no base material 'own-aloy'. Did you mean 'own-alloy'? "
          "Known: own-alloy. Use one of these, or add base_materials/own-aloy.yaml to a catalogue "
          "folder (docs/catalogue_format.md)."));
}

TEST_CASE("an unknown cell is named with the known ones") {
  Catalogue catalogue = own_catalogue();
  CHECK_THROWS_MATCHES(
      catalogue.cell("bbc"), InputError,
      Catch::Matchers::Message(
          "unit_cells/ of the catalogue has no unit cell 'bbc'. Did you mean 'bcc'? Known: bcc, bccz, "
          "cubic_octet_plate, cubic_plate, cuboctahedron, diamond, diamond_sheet, diamond_skeletal, fcc_all_faces, "
          "fcc_side_faces, fccz, gyroid_sheet, gyroid_skeletal, honeycomb_doubled_wall, honeycomb_uniform_wall, "
          "iwp_sheet, kelvin, metal_foam_closed, octet, primitive_sheet, rhombic_dodecahedron, simple_cubic. Use one "
          "of these, or add unit_cells/bbc.yaml to a catalogue folder (docs/catalogue_format.md)."));
}

TEST_CASE("a file whose name is not its id is refused") {
  const TemporaryFolder folder("misnamed");
  folder.write("base_materials/other.yaml", own_material);
  Catalogue catalogue({folder.path()});
  std::string message;
  try {
    catalogue.material("other");
  } catch (const InputError& error) {
    message = error.what();
  }
  const std::string file = (folder.path() / "base_materials/other.yaml").string();
  CHECK(message == file + ":2:5: id: the file is called other.yaml, but its id is 'own-alloy'\n"
                          "    2 | id: own-alloy\n"
                          "      |     ^\n"
                          "   Make the id and the file's name the same.");
}

TEST_CASE("a folder without entries is refused") {
  const TemporaryFolder folder("empty");
  CHECK_THROWS_MATCHES(
      Catalogue({folder.path()}), InputError,
      Catch::Matchers::Message(folder.path().string() +
                               ": a catalogue folder holds unit_cells/ or base_materials/, and this one "
                               "has neither. Name the folder above them."));
}
