#include "crushwright/errors.hpp"
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
        "   Run `scripts/update_catalogue own.yaml`: it computes the block from the cell's own solid "
        "and writes it into the file.");
}

TEST_CASE("a foam is not sized") {
  CHECK(message_of("schema: 1\nid: own\nname: Own foam\ndescription: Invented.\nclass: foam\nbehaviour: bending\n"
                   "symmetry: isotropic\nsize_name: wall\n") ==
        "own.yaml:8:12: size_name: a foam has no size_name: nothing in it is sized\n"
        "    8 | size_name: wall\n"
        "      |            ^\n"
        "   Remove it; a case states the relative density of a foam directly.");
}
