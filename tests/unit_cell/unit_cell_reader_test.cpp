#include "crushwright/errors.hpp"
#include "surface/sample_meshes.hpp"
#include "unit_cell/boundary_distance.hpp"
#include "unit_cell/unit_cell_reader.hpp"

#include <catch2/catch.hpp>
#include <string>

using namespace crushwright;

namespace {

std::string strut_cell(const std::string& struts, const std::string& more = "") {
  return "schema: 1\nid: own\nname: Own cell\ndescription: Invented for this test.\nclass: strut\nbehaviour: "
         "bending\n"
         "symmetry: cubic\nstruts: " +
         struts +
         "\nsize_name: strut diameter\nedge_name: cell edge\n"
         "nominal_density: {coefficients: [0, 2.356], source: hand}\n"
         "true_density: {coefficients: [0, 2.356, -1.414], size_ratio_range: [0.02, 0.3], largest_fit_error: 0.001, "
         "source: hand}\n" +
         more;
}

std::string message_of(const std::string& text) {
  try {
    read_unit_cell(Mapping::read_text(text, "own.yaml"));
  } catch (const InputError& error) {
    return error.what();
  }
  return "";
}

} // namespace

TEST_CASE("a strut cell is read with its laws") {
  const UnitCell cell =
      read_unit_cell(Mapping::read_text(strut_cell("[[0, 0, 0, 1, 0, 0], [0, 0, 0, 0, 1, 0], [0, 0, 0, 0, 0, 1]]",
                                                   "plateau_stress:\n"
                                                   "  - id: tests\n"
                                                   "    evidence: measured\n"
                                                   "    direction: \"100\"\n"
                                                   "    material: own-alloy\n"
                                                   "    process: casting\n"
                                                   "    coefficient: 0.4\n"
                                                   "    exponent: 1.6\n"
                                                   "    stress_basis: flow_stress\n"
                                                   "    fitted_relative_density: [0.08, 16 %]\n"
                                                   "    density_basis: weighed\n"
                                                   "    coefficient_of_variation: 0.05\n"
                                                   "    source: own tests\n"
                                                   "    standing: read\n"),
                                        "own.yaml"));
  REQUIRE(cell.struts.size() == 3);
  CHECK(cell.struts[1].to == std::array<double, 3>{0, 1, 0});
  REQUIRE(cell.plateau_stress.size() == 1);
  const PowerLaw& law = cell.plateau_stress[0];
  CHECK(law.origin.evidence == Evidence::measured);
  CHECK(law.origin.density_basis == DensityBasis::weighed);
  CHECK(law.stress_basis == StressBasis::flow_stress);
  CHECK(law.origin.fitted_relative_density.high == Approx(0.16));
  CHECK(*law.origin.coefficient_of_variation == 0.05);
  CHECK(law.origin.source.text == "own tests");
}

TEST_CASE("a strut on a shared edge listed twice is refused") {
  CHECK(
      message_of(strut_cell("[[0, 0, 0, 1, 0, 0], [0, 1, 0, 1, 1, 0]]")) ==
      "own.yaml:8:1: struts: strut 2 is strut 1 again, moved by whole cells\n"
      "    8 | struts: [[0, 0, 0, 1, 0, 0], [0, 1, 0, 1...\n"
      "      | ^\n"
      "   List each strut of the repeating lattice once: a strut on a shared face or edge belongs to one cell only.");
}

TEST_CASE("a strut outside the unit cube or of no length is refused") {
  CHECK(message_of(strut_cell("[[0, 0, 0, 1.5, 0, 0]]")) ==
        "own.yaml:8:1: struts: strut 1 leaves the unit cube\n"
        "    8 | struts: [[0, 0, 0, 1.5, 0, 0]]\n"
        "      | ^\n"
        "   Give both ends in cell edges, each coordinate from 0 to 1.");
  CHECK(message_of(strut_cell("[[0, 0, 0, 0, 0, 0]]")) == "own.yaml:8:1: struts: strut 1 has no length\n"
                                                          "    8 | struts: [[0, 0, 0, 0, 0, 0]]\n"
                                                          "      | ^\n"
                                                          "   Give it two different ends.");
}

TEST_CASE("a law without source and standing is refused") {
  CHECK(message_of(strut_cell("[[0, 0, 0, 1, 0, 0]]", "elastic_modulus:\n"
                                                      "  - id: bare\n"
                                                      "    evidence: generic\n"
                                                      "    direction: any\n"
                                                      "    coefficient: 1\n"
                                                      "    exponent: 2\n"
                                                      "    fitted_relative_density: [0.05, 0.3]\n"
                                                      "    density_basis: true\n")) ==
        "own.yaml:14:5: elastic_modulus[0].source: this law has neither source nor standing\n"
        "   14 |   - id: bare\n"
        "      |     ^\n"
        "   Say where the law comes from, or at least how sure it is with standing: memory.");
}

TEST_CASE("a density that falls inside its range is refused") {
  std::string text = strut_cell("[[0, 0, 0, 1, 0, 0]]");
  text.replace(text.find("-1.414"), 6, "-6.414");
  CHECK_THAT(message_of(text), Catch::Matchers::Contains("it must rise and stay between 0 and 1\n"));
}

TEST_CASE("a cell without its true density is sent to the script that computes it") {
  std::string text = strut_cell("[[0, 0, 0, 1, 0, 0]]");
  const auto begin = text.find("true_density");
  text.erase(begin, text.find('\n', begin) + 1 - begin);
  CHECK(message_of(text) ==
        "own.yaml:1:1: true_density: the true relative density is missing, and it is computed, not "
        "typed\n"
        "    1 | schema: 1\n"
        "      | ^\n"
        "   Run `crushwright cell own.yaml --write`: it computes the densities from the cell's own solid "
        "and writes them into the file.");
}

TEST_CASE("a foam is not sized") {
  CHECK(message_of("schema: 1\nid: own\nname: Own foam\ndescription: Invented.\nclass: foam\nbehaviour: bending\n"
                   "symmetry: isotropic\nsize_name: wall\n") ==
        "own.yaml:8:12: size_name: a foam has no size_name: nothing in it is sized\n"
        "    8 | size_name: wall\n"
        "      |            ^\n"
        "   Remove it; a case states the relative density of a foam directly.");
}

namespace {

std::string plate_cell(const std::string& plates) {
  return "schema: 1\nid: own\nname: Own cell\ndescription: Invented for this test.\nclass: plate\n"
         "behaviour: stretching\nsymmetry: cubic\nplates:\n" +
         plates +
         "size_name: wall thickness\nedge_name: cell edge\n"
         "nominal_density: {coefficients: [1], source: hand}\n"
         "true_density: {coefficients: [1], size_ratio_range: [0.02, 0.3], largest_fit_error: 0, source: hand}\n";
}

/// The message of a solid read from a folder of its own, without that folder's name.
std::string solid_message(const sample_meshes::Surface& mesh, const std::string& edge) {
  const sample_meshes::MeshFolder folder("reader");
  folder.write("own.off", sample_meshes::off_text(mesh));
  const std::filesystem::path file =
      folder.write("own.yaml", "schema: 1\nid: own\nname: Own\ndescription: Invented.\nclass: solid\n"
                               "behaviour: bending\nsymmetry: tetragonal\nmesh: own.off\n" +
                                   edge);
  try {
    read_unit_cell(Mapping::read_file(file));
  } catch (const InputError& error) {
    const std::string message = error.what();
    const std::string prefix = folder.path().string() + "/";
    return message.rfind(prefix, 0) == 0 ? message.substr(prefix.size()) : message;
  }
  return "";
}

} // namespace

TEST_CASE("a cell of plates is read with its thicknesses") {
  const UnitCell cell = read_unit_cell(Mapping::read_text(
      plate_cell("  - corners: [[0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]]\n    thickness: 1.5\n"), "own.yaml"));
  REQUIRE(cell.plates.size() == 1);
  CHECK(cell.plates[0].corners[2] == std::array<double, 3>{1, 1, 0});
  CHECK(cell.plates[0].thickness_factor == 1.5);
}

TEST_CASE("a plate that is bent, dented or listed twice is refused") {
  CHECK(message_of(plate_cell("  - corners: [[0, 0, 0], [1, 0, 0], [1, 1, 0.5], [0, 1, 0]]\n    thickness: 1\n")) ==
        "own.yaml:9:5: plates[0].corners: plate 1 is not flat: corner 2 lies 0.24 cell edges off the plane of the "
        "others\n"
        "    9 |   - corners: [[0, 0, 0], [1, 0, 0], [1, 1, 0...\n"
        "      |     ^\n"
        "   Give at least three corners of a flat plate without a dent, in order around it; cut a dented plate into "
        "several.");
  CHECK_THAT(
      message_of(plate_cell("  - corners: [[0, 0, 0], [1, 0, 0], [0.2, 0.2, 0], [0, 1, 0]]\n    thickness: 1\n")),
      Catch::Matchers::Contains("plate 1 turns the wrong way, or not at all, at corner 3\n"));
  CHECK_THAT(message_of(plate_cell("  - corners: [[0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]]\n    thickness: 1\n"
                                   "  - corners: [[0, 1, 1], [0, 0, 1], [1, 0, 1], [1, 1, 1]]\n    thickness: 1\n")),
             Catch::Matchers::Contains("plate 2 is plate 1 again, moved by whole cells\n"));
}

TEST_CASE("a solid has the density of its mesh and one size") {
  const sample_meshes::MeshFolder folder("own");
  folder.write("own.stl", sample_meshes::stl_text(sample_meshes::channel_cell()));
  const UnitCell cell = read_unit_cell(Mapping::read_file(
      folder.write("own.yaml", "schema: 1\nid: own\nname: Own\ndescription: Invented.\nclass: solid\n"
                               "behaviour: bending\nsymmetry: tetragonal\nmesh: own.stl\nmesh_cell_edge: 10\n")));
  CHECK_FALSE(is_sized(cell));
  CHECK(relative_density(cell, 1) == Approx(0.75).epsilon(1e-12));
  CHECK(size_ratio(cell, 0.76) == 1);
  CHECK_THROWS_WITH(
      size_ratio(cell, 0.7),
      "Own: its mesh has the relative density 0.75, and 0.7 was asked for. A mesh has one size: state its "
      "own density, to 2 %, or change the mesh.");
  // In voxels: three quarters of the cell, the channel along z.
  const std::vector<float> field = boundary_distance(cell, 1, 40);
  double metal = 0;
  for (float distance : field)
    metal += distance < 0 ? 1 : 0;
  CHECK(metal / double(field.size()) == Approx(0.75).epsilon(1e-12));
}

TEST_CASE("a solid whose edge is not stated, or is not that of its mesh, is refused") {
  CHECK_THAT(solid_message(sample_meshes::channel_cell(), ""), Catch::Matchers::Contains("mesh_cell_edge"));
  CHECK(
      solid_message(sample_meshes::channel_cell(), "mesh_cell_edge: 12\n") ==
      "own.yaml:8:7: mesh: own.off: along x the mesh runs from 0 to 10, and the cell from 0 to 12: the mesh does not "
      "reach across it\n"
      "    8 | mesh: own.off\n"
      "      |       ^\n"
      "   Export one cell of the repeating solid between 0 and its edge along x, y and z, and state that edge, in "
      "the "
      "mesh's own units, as mesh_cell_edge.");
  CHECK_THAT(solid_message(sample_meshes::block_with_channel(10, 5, 6.25, 0, 10), "mesh_cell_edge: 10\n"),
             Catch::Matchers::Contains("mesh: own.off: the faces z = 0 and z = 1 of the cell do not match: 18.8 % of "
                                       "their metal has none opposite"));
}

TEST_CASE("a part that belongs to another class is refused") {
  CHECK_THAT(message_of(strut_cell("[[0, 0, 0, 1, 0, 0]]", "mesh_cell_edge: 10\n")),
             Catch::Matchers::Contains("mesh_cell_edge: only a cell of class solid has a mesh\n"));
  CHECK_THAT(message_of(strut_cell("[[0, 0, 0, 1, 0, 0]]", "surface: gyroid\n")),
             Catch::Matchers::Contains("surface: only a cell of class sheet or skeletal has a surface\n"));
}
