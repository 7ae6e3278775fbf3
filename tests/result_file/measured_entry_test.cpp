#include "result_file/measured_entry.hpp"

#include "crushwright/errors.hpp"
#include "material/base_material_reader.hpp"
#include "unit_cell/unit_cell_reader.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

using namespace crushwright;
using Catch::Contains;

namespace {

std::string shipped(const std::string& name) {
  std::ifstream file(std::string(CRUSHWRIGHT_SOURCE_DIR) + "/lattices/" + name);
  return {std::istreambuf_iterator<char>(file), {}};
}

LawOrigin origin() {
  LawOrigin made;
  made.id = "coupons-june";
  made.evidence = Evidence::measured;
  made.direction = "100";
  made.material = "AlSi10Mg-stress-relieved";
  made.process = "laser powder bed fusion";
  made.fitted_relative_density = {0.08, 0.2};
  made.density_basis = DensityBasis::true_;
  made.coefficient_of_variation = 0.041;
  made.source = {"own tests of \"plate 7\"", Standing::read};
  Measurement measurement;
  measurement.specimens = 9;
  measurement.files = tested_files({{"a.csv", "abc"}});
  measurement.plateau_window = Range{0.2, 0.4};
  measurement.exponent_range = Range{1.6, 1.9};
  made.measurement = measurement;
  return made;
}

MeasuredLawLists laws() {
  MeasuredLawLists made;
  made.plateau_stress.push_back({origin(), 0.71, 1.75, StressBasis::proof_stress});
  made.densification.push_back({origin(), DensificationDefinition::efficiency_strain, 0.78, 1.1});
  return made;
}

} // namespace

TEST_CASE("a measured law goes into a shipped entry and comes back with all that it rests on") {
  const std::string entry = shipped("unit_cells/kelvin.yaml");
  const UnitCell before = read_unit_cell(Mapping::read_text(entry, "kelvin.yaml"));
  const std::string text = with_measured_laws(entry, laws(), "kelvin.yaml");
  const UnitCell after = read_unit_cell(Mapping::read_text(text, "kelvin.yaml"));
  REQUIRE(after.plateau_stress.size() == before.plateau_stress.size() + 1);
  const PowerLaw& law = after.plateau_stress.back();
  CHECK(law.coefficient == 0.71);
  CHECK(law.exponent == 1.75);
  CHECK(law.origin.material == "AlSi10Mg-stress-relieved");
  CHECK(law.origin.source.text == "own tests of \"plate 7\"");
  REQUIRE(law.origin.measurement);
  CHECK(*law.origin.measurement == *origin().measurement);
  // FIPS 180-4's example: the digest of "abc".
  CHECK(law.origin.measurement->files.front().sha256 ==
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  REQUIRE(after.densification.size() == before.densification.size() + 1);
  CHECK(after.densification.back().slope == 1.1);
  CHECK(after.elastic_modulus.size() == before.elastic_modulus.size());
}

TEST_CASE("written twice, a measured law stands once, and nothing else moves") {
  const std::string entry = shipped("unit_cells/kelvin.yaml");
  const std::string once = with_measured_laws(entry, laws(), "kelvin.yaml");
  CHECK(with_measured_laws(once, laws(), "kelvin.yaml") == once);
  MeasuredLawLists changed = laws();
  changed.plateau_stress.front().coefficient = 0.9;
  const UnitCell after = read_unit_cell(Mapping::read_text(with_measured_laws(once, changed, "k.yaml"), "k.yaml"));
  CHECK(after.plateau_stress.back().coefficient == 0.9);
  CHECK(std::count_if(after.plateau_stress.begin(), after.plateau_stress.end(),
                      [](const PowerLaw& law) { return law.origin.id == "coupons-june"; }) == 1);
}

TEST_CASE("measured properties replace a material's own, and the rest of its entry stays") {
  const std::string entry = shipped("base_materials/AlSi10Mg-stress-relieved.yaml");
  const MeasuredProperty proof{"proof_stress", "212.5 MPa", "205 MPa",
                               "220 MPa",      0.031,       "five bars of the same build"};
  const std::string text = with_measured_properties(entry, {proof}, "m.yaml");
  const BaseMaterial before = read_base_material(Mapping::read_text(entry, "m.yaml"));
  const BaseMaterial after = read_base_material(Mapping::read_text(text, "m.yaml"));
  CHECK(after.proof_stress->value == Approx(212.5e6));
  CHECK(after.proof_stress->low == Approx(205e6));
  CHECK(after.proof_stress->coefficient_of_variation == Approx(0.031));
  CHECK(after.proof_stress->source.text == "five bars of the same build");
  CHECK(after.ultimate_stress->value == before.ultimate_stress->value);
  CHECK(after.youngs_modulus->source.text == before.youngs_modulus->source.text);
  CHECK(with_measured_properties(text, {proof}, "m.yaml") == text);
}

TEST_CASE("a property that contradicts another is refused before anything is written") {
  const std::string entry = shipped("base_materials/AlSi10Mg-stress-relieved.yaml");
  const MeasuredProperty proof{"proof_stress", "500 MPa", "", "", std::nullopt, "bars"};
  CHECK_THROWS_WITH(with_measured_properties(entry, {proof}, "m.yaml"), Contains("below the proof stress"));
}

TEST_CASE("a block of tests on a law that was not measured is refused with its line") {
  const std::string text = with_measured_laws(shipped("unit_cells/kelvin.yaml"), laws(), "kelvin.yaml");
  std::string wrong = text;
  const std::size_t at = wrong.find("evidence: measured");
  wrong.replace(at, 18, "evidence: prior");
  CHECK_THROWS_WITH(read_unit_cell(Mapping::read_text(wrong, "kelvin.yaml")),
                    Contains("only a law of evidence measured has this"));
}
