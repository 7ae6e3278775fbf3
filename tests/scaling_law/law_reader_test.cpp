#include "crushwright/errors.hpp"
#include "scaling_law/law_reader.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

std::string cell_with(const std::string& evidence, const std::string& more) {
  return "schema: 1\nplateau_stress:\n"
         "  - id: own\n    evidence: " +
         evidence +
         "\n    direction: \"100\"\n    coefficient: 0.2\n    exponent: 1.6\n    stress_basis: flow_stress\n"
         "    fitted_relative_density: [0.05, 0.3]\n    density_basis: true\n" +
         more + "    source: own\n    standing: derived\n";
}

PowerLaw law_read(const std::string& text) {
  Mapping cell = Mapping::read_text(text, "own.yaml");
  cell.allow({"plateau_stress"});
  return read_power_laws(cell, "plateau_stress", LawKind::strength).at(0);
}

std::string message_of(const std::string& text) {
  try {
    law_read(text);
  } catch (const InputError& error) {
    return error.what();
  }
  return "";
}

const std::string by_voxels = "    computed_by: {method: voxels, grid: 96, spread: 0.03, largest_residual: 0.02, "
                              "version: 0.1.0}\n";

} // namespace

TEST_CASE("a computed law keeps what it was computed by") {
  const PowerLaw law = law_read(cell_with("computed", by_voxels));
  REQUIRE(law.origin.computation);
  CHECK(*law.origin.computation == Computation{"voxels", 96, 0.03, 0.02, "0.1.0"});
  CHECK_FALSE(law.origin.node_to_node);
}

TEST_CASE("a computed law that does not say what computed it is refused") {
  CHECK(message_of(cell_with("computed", "")) ==
        "own.yaml:3:5: plateau_stress[0].computed_by: a computed law says what computed it, and this one does not\n"
        "    3 |   - id: own\n"
        "      |     ^\n"
        "   Write it with `crushwright cell FILE --laws LOW HIGH --write`, or state where else the numbers come from "
        "as "
        "evidence.");
}

TEST_CASE("a law of other evidence says nothing of a computation") {
  CHECK(message_of(cell_with("published", by_voxels)) ==
        "own.yaml:11:5: plateau_stress[0].computed_by: only a law of evidence computed has this, and the law is "
        "published\n"
        "   11 |     computed_by: {method: voxels, grid: 96, ...\n"
        "      |     ^\n"
        "   Remove the line or correct evidence.");
}

TEST_CASE("frames have no grid and voxels do") {
  CHECK(message_of(cell_with("computed", "    computed_by: {method: frame, grid: 96, spread: 0, largest_residual: "
                                         "0.02, version: 0.1.0}\n"))
            .find("grid 96 does not go with method frame") != std::string::npos);
  CHECK(message_of(cell_with("computed", "    computed_by: {method: voxels, grid: 0, spread: 0, largest_residual: "
                                         "0.02, version: 0.1.0}\n"))
            .find("grid 0 does not go with method voxels") != std::string::npos);
}

TEST_CASE("a law may say that it is one of beams between node centres") {
  CHECK(law_read(cell_with("published", "    node_to_node: true\n")).origin.node_to_node);
}
