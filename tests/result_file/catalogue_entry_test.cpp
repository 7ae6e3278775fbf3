#include "crushwright/errors.hpp"
#include "result_file/catalogue_entry.hpp"
#include "unit_cell/catalogue_folder.hpp"
#include "unit_cell/unit_cell_reader.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

using namespace crushwright;

namespace {

const std::string head = "schema: 1\nid: own\nname: Own cell\ndescription: Invented for this test.\nclass: strut\n"
                         "behaviour: bending\nsymmetry: cubic\n"
                         "struts: [[0, 0, 0, 1, 0, 0], [0, 0, 0, 0, 1, 0], [0, 0, 0, 0, 0, 1]] # the edges\n"
                         "size_name: strut diameter\nedge_name: cell edge\n"
                         "nominal_density: {coefficients: [0, 2.356], source: hand}\n"
                         "true_density: {coefficients: [0, 2.356, -1.414], size_ratio_range: [0.02, 0.3], "
                         "largest_fit_error: 0.001, source: hand}\n";
const std::string own_law = "  - id: tests # of our own\n    evidence: measured\n    direction: \"100\"\n"
                            "    material: own-alloy\n    process: casting\n    coefficient: 0.4\n"
                            "    exponent: 1.6\n    stress_basis: flow_stress\n"
                            "    fitted_relative_density: [0.08, 16 %]\n    density_basis: weighed\n"
                            "    source: own tests\n    standing: read\n";

PowerLaw computed(const std::string& id, double coefficient) {
  PowerLaw law;
  law.origin.id = id;
  law.origin.evidence = Evidence::computed;
  law.origin.direction = "100";
  law.origin.fitted_relative_density = {0.05, 0.25};
  law.origin.remark = "a \"quoted\" word";
  law.origin.source = {"own geometry", Standing::derived};
  law.origin.computation = Computation{"frame", 0, 0, 0.01234, "0.1.0"};
  law.coefficient = coefficient;
  law.exponent = 1.5;
  law.stress_basis = StressBasis::flow_stress;
  return law;
}

UnitCell cell_of(const std::string& text) {
  return read_unit_cell(Mapping::read_text(text, "own.yaml"));
}

} // namespace

TEST_CASE("a law that was written is read back as it was") {
  LawLists laws;
  laws.plateau_stress = {computed("frame-collapse-100", 0.31)};
  const UnitCell cell = cell_of(with_computed_laws(head, laws, "own.yaml"));
  REQUIRE(cell.plateau_stress.size() == 1);
  const PowerLaw& law = cell.plateau_stress.front();
  CHECK(law.origin.id == "frame-collapse-100");
  CHECK(law.coefficient == Approx(0.31).epsilon(1e-6));
  CHECK(law.stress_basis == StressBasis::flow_stress);
  CHECK(law.origin.fitted_relative_density == Range{0.05, 0.25});
  CHECK(law.origin.remark == "a \"quoted\" word");
  // The residual is rounded up: what is stated is never less than what was found.
  CHECK(*law.origin.computation == Computation{"frame", 0, 0, 0.0124, "0.1.0"});
}

TEST_CASE("writing laws twice replaces the computed ones and leaves every other byte") {
  const std::string remark = "# a remark of the user's below the laws\n";
  const std::string tail = "densification: # none yet\n  []\n";
  const std::string entry = head + "plateau_stress:\n" + own_law + remark + "\n" + tail;
  LawLists first, second;
  first.elastic_modulus = {computed("frame-stiffness-100", 0.2), computed("frame-stiffness-110", 0.1)};
  first.plateau_stress = {computed("frame-collapse-100", 0.31)};
  first.first_peak_ratio = {computed("frame-first-peak-100", 1.2)};
  second.elastic_modulus = {computed("frame-stiffness-100", 0.3)};
  second.plateau_stress = {computed("frame-collapse-100", 0.32)};
  const std::string once = with_computed_laws(entry, first, "own.yaml");
  const std::string twice = with_computed_laws(once, second, "own.yaml");
  CHECK(twice == head + "plateau_stress:\n" + own_law + law_item(second.plateau_stress[0], true, 2) + remark + "\n" +
                     "elastic_modulus:\n" + law_item(second.elastic_modulus[0], false, 2) + tail);
  CHECK(with_computed_laws(twice, second, "own.yaml") == twice);
  CHECK(with_computed_laws(twice, LawLists{}, "own.yaml") == entry);
}

TEST_CASE("laws are put into a list at its own indent, and between the user's laws none is lost") {
  std::string deep;
  for (std::size_t begin = 0; begin < own_law.size(); begin = own_law.find('\n', begin) + 1)
    deep += "  " + own_law.substr(begin, own_law.find('\n', begin) + 1 - begin);
  std::string second = deep;
  second.replace(second.find("tests"), 5, "later");
  const std::string old = law_item(computed("frame-old", 0.1), true, 4);
  const std::string entry = head + "plateau_stress:\n" + deep + old + "    # kept\n" + second;
  LawLists laws;
  laws.plateau_stress = {computed("frame-new", 0.2)};
  CHECK(with_computed_laws(entry, laws, "own.yaml") ==
        head + "plateau_stress:\n" + deep + "    # kept\n" + second + law_item(laws.plateau_stress[0], true, 4));
}

TEST_CASE("a list in one line is refused, and an empty one is opened") {
  LawLists laws;
  laws.first_peak_ratio = {computed("frame-first-peak-100", 1.2)};
  CHECK(with_computed_laws(head + "first_peak_ratio: []\n", laws, "own.yaml") ==
        head + "first_peak_ratio:\n" + law_item(laws.first_peak_ratio[0], false, 2));
  const std::string line =
      "first_peak_ratio: [{id: a, evidence: generic, direction: any, coefficient: 1.1, exponent: "
      "0, fitted_relative_density: [0.1, 0.2], density_basis: true, source: hand}]\n";
  CHECK_THROWS_MATCHES(with_computed_laws(head + line, laws, "own.yaml"), InputError,
                       Catch::Matchers::Message(
                           "own.yaml:13: first_peak_ratio: the laws stand in one line, so that none can be put in or "
                           "taken out by lines\n   Write each law of the list below the key, beginning with a dash "
                           "(docs/catalogue_format.md)."));
}

TEST_CASE("a file without a line feed at its end gets one before its laws") {
  LawLists laws;
  laws.elastic_modulus = {computed("frame-stiffness-100", 0.2)};
  CHECK(with_computed_laws(head.substr(0, head.size() - 1), laws, "own.yaml") ==
        head + "elastic_modulus:\n" + law_item(laws.elastic_modulus[0], false, 2));
}

TEST_CASE("a file is replaced whole, keeps its permissions and leaves nothing beside it") {
  const TemporaryFolder folder("replace_file");
  folder.write("own.yaml", "before");
  const std::filesystem::path file = folder.path() / "own.yaml";
  std::filesystem::permissions(file, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write |
                                         std::filesystem::perms::group_read);
  replace_file(file, "after");
  std::ifstream stream(file);
  CHECK(std::string(std::istreambuf_iterator<char>(stream), {}) == "after");
  CHECK((std::filesystem::status(file).permissions() & std::filesystem::perms::group_read) !=
        std::filesystem::perms::none);
  CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
  CHECK_THROWS_AS(replace_file(folder.path() / "nowhere" / "own.yaml", "after"), InputError);
}
