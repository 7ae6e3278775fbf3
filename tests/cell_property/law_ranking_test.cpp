#include "cell_property/sample_cells.hpp"
#include "crushwright/cell_property.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

std::vector<std::string> order_of(const UnitCell& cell, const BaseMaterial& material, double density) {
  std::vector<std::string> ids;
  for (const PropertyEvidence& evidence : cell_properties(cell, material, "100", density).plateau_stress.all) {
    ids.push_back(evidence.law);
  }
  return ids;
}

} // namespace

TEST_CASE("evidence is kept in the order measured, published that matches, computed, published elsewhere, generic") {
  UnitCell cell = round_foam();
  PowerLaw elsewhere = law_of("elsewhere", Evidence::published, 0.21);
  elsewhere.origin.material = "another-metal";
  PowerLaw measured = law_of("measured", Evidence::measured, 0.22);
  measured.origin.material = "round-metal";
  measured.origin.process = "casting";
  PowerLaw fits = measured;
  fits.origin.id = "fits";
  fits.origin.evidence = Evidence::published;
  cell.plateau_stress = {elsewhere, law_of("computed", Evidence::computed, 0.20), fits, measured};
  CHECK(order_of(cell, round_metal(), 0.1) ==
        std::vector<std::string>{"measured", "fits", "computed", "elsewhere", "class-bending-strength"});
}

TEST_CASE("a published law beats a computed one only if metal, process, range and density basis all match") {
  PowerLaw fits = law_of("published", Evidence::published, 0.2);
  fits.origin.material = "round-metal";
  fits.origin.process = "casting";
  const auto first = [](const PowerLaw& published) {
    UnitCell cell = round_foam();
    cell.plateau_stress = {published, law_of("computed", Evidence::computed, 0.2)};
    return order_of(cell, round_metal(), 0.1).front();
  };
  CHECK(first(fits) == "published");
  PowerLaw changed = fits;
  changed.origin.material = "round-metal-annealed"; // the same alloy in another condition
  CHECK(first(changed) == "computed");
  changed = fits;
  changed.origin.process = "laser powder bed fusion";
  CHECK(first(changed) == "computed");
  changed = fits;
  changed.origin.fitted_relative_density = {0.15, 0.3};
  CHECK(first(changed) == "computed");
  changed = fits;
  changed.origin.density_basis = DensityBasis::weighed;
  CHECK(first(changed) == "computed");
  changed = fits;
  changed.origin.density_basis = DensityBasis::nominal; // drawn, and given exactly by the size
  CHECK(first(changed) == "published");
  changed = fits;
  changed.origin.material = changed.origin.process = ""; // a closed form
  CHECK(first(changed) == "computed");
}

TEST_CASE("the reason says what does not match") {
  UnitCell cell = round_foam();
  const auto reason = [&](const PowerLaw& law) {
    cell.plateau_stress = {law};
    return cell_properties(cell, round_metal(), "100", 0.1).plateau_stress.reason;
  };
  PowerLaw law = law_of("own", Evidence::published, 0.2);
  CHECK(reason(law) == "'own' is published for this cell, and names no metal and process; nothing closer exists");
  law.origin.material = "another-metal";
  CHECK(reason(law) ==
        "'own' is published for another metal, process, range or density basis; nothing closer exists");
  law.origin.material = "round-metal";
  law.origin.process = "casting";
  CHECK(reason(law) == "'own' is published for this cell, direction, metal, process and range");
  law.origin.evidence = Evidence::measured;
  CHECK(reason(law) == "'own' was measured on this metal and process");
  law.origin.process = "forging";
  CHECK(reason(law) == "'own' was measured on another metal or process; nothing closer exists");
  law.origin.evidence = Evidence::computed;
  CHECK(reason(law) == "'own' was computed for this cell from its own geometry");
}

TEST_CASE("the kind of evidence that is asked for goes before better evidence and before laws inside their range") {
  UnitCell cell = round_foam();
  PowerLaw measured = law_of("measured", Evidence::measured, 0.22);
  measured.origin.material = "round-metal";
  measured.origin.process = "casting";
  cell.plateau_stress = {measured, law_of("computed", Evidence::computed, 0.2, {0.12, 0.3})};
  const auto asked = [&](Evidence kind) {
    return cell_properties(cell, round_metal(), "100", 0.1, kind).plateau_stress;
  };
  CHECK(asked(Evidence::computed).all.front().law == "computed");
  CHECK(asked(Evidence::computed).reason ==
        "'computed', because computed evidence is asked for; it is extrapolated to this relative density");
  CHECK(asked(Evidence::generic).all.front().law == "class-bending-strength");
  CHECK(asked(Evidence::generic).reason == "'class-bending-strength', because generic evidence is asked for");
  CHECK(choose_laws(cell, round_metal(), "100", 0.1, Evidence::computed).plateau_stress.origin.id == "computed");
  // No entry has its stiffness measured here: the best there is serves.
  CHECK(cell_properties(cell, round_metal(), "100", 0.1, Evidence::measured).elastic_modulus.all.front().law ==
        "class-bending-stiffness");
}

TEST_CASE("evidence that is asked for and does not exist is an error that names what there is") {
  Catalogue catalogue = own_catalogue();
  UnitCell cell = catalogue.cell("octet");
  cell.plateau_stress = {law_of("pinned", Evidence::published, 0.3)};
  CHECK_THROWS_MATCHES(
      choose_laws(cell, round_metal(), "100", 0.1, Evidence::measured), OutOfDomain,
      Catch::Matchers::Message("Octet truss: no measured law for the plateau stress when crushed along 100. Evidence "
                               "that there is: published, generic. Ask for one of these, or add such a law to "
                               "unit_cells/octet.yaml."));
  CHECK_THROWS_MATCHES(
      choose_laws(cell, round_metal(), "100", 0.1, Evidence::computed), OutOfDomain,
      Catch::Matchers::Message("Octet truss: no computed law for the plateau stress when crushed along 100. Evidence "
                               "that there is: published, generic. Ask for one of these, or add such a law to "
                               "unit_cells/octet.yaml with `crushwright cell FILE --laws LOW HIGH --write`."));
}

TEST_CASE("a test on another process does not count as measured") {
  UnitCell cell = round_foam();
  PowerLaw measured = law_of("measured", Evidence::measured, 0.22);
  measured.origin.material = "round-metal";
  measured.origin.process = "laser powder bed fusion";
  cell.plateau_stress = {measured, law_of("computed", Evidence::computed, 0.20)};
  CHECK(order_of(cell, round_metal(), 0.1) ==
        std::vector<std::string>{"computed", "measured", "class-bending-strength"});
}

TEST_CASE("a law inside its range beats a better one outside") {
  UnitCell cell = round_foam();
  cell.plateau_stress = {law_of("narrow", Evidence::computed, 0.2, {0.15, 0.20}),
                         law_of("wide", Evidence::published, 0.2, {0.05, 0.30})};
  CHECK(order_of(cell, round_metal(), 0.1).front() == "wide");
  CHECK(order_of(cell, round_metal(), 0.18).front() == "narrow");
}

TEST_CASE("when no law is inside, the least extrapolated is used and flagged") {
  UnitCell cell = round_foam();
  cell.plateau_stress = {law_of("far", Evidence::published, 0.2, {0.05, 0.10}),
                         law_of("near", Evidence::computed, 0.2, {0.05, 0.35})};
  const CellProperties properties = cell_properties(cell, round_metal(), "100", 0.4);
  CHECK(properties.plateau_stress.all.front().law == "near");
  CHECK_FALSE(properties.plateau_stress.all.front().inside_fitted_range);
  CHECK(properties.plateau_stress.reason ==
        "no law was fitted at this relative density; 'near' is extrapolated least");
  CHECK(std::count(properties.warnings.begin(), properties.warnings.end(),
                   "The plateau stress is extrapolated: no law was fitted at this relative density, 'near' comes "
                   "nearest.") == 1);
}

TEST_CASE("a law for another direction is no evidence") {
  UnitCell cell = round_foam();
  cell.symmetry = "tetragonal";
  PowerLaw along_z = law_of("along-z", Evidence::published, 0.2);
  along_z.origin.direction = "001";
  cell.plateau_stress = {along_z};
  CHECK(order_of(cell, round_metal(), 0.1) == std::vector<std::string>{"class-bending-strength"});
  CHECK(cell_properties(cell, round_metal(), "001", 0.1).plateau_stress.all.front().law == "along-z");
}

TEST_CASE("the three edges of a cubic cell are one direction") {
  Catalogue catalogue = own_catalogue();
  const BaseMaterial& metal = catalogue.material("AlSi10Mg-stress-relieved");
  const double along_x = cell_properties(catalogue.cell("octet"), metal, "100", 0.1).elastic_modulus.value;
  CHECK(cell_properties(catalogue.cell("octet"), metal, "001", 0.1).elastic_modulus.value == along_x);
  // The closed form of slender struts alone: 1/6 of the density along 011 and 1/9 along an edge [deshpande2001octet].
  const UnitCell slender = without_computed_laws(catalogue.cell("octet"));
  CHECK(cell_properties(slender, metal, "011", 0.1).elastic_modulus.value ==
        Approx(1.5 * cell_properties(slender, metal, "100", 0.1).elastic_modulus.value));
}

TEST_CASE("a direction that is no direction is refused") {
  Catalogue catalogue = own_catalogue();
  CHECK_THROWS_MATCHES(
      choose_laws(catalogue.cell("octet"), round_metal(), "axial", 0.1), OutOfDomain,
      Catch::Matchers::Message("crush direction 'axial': write three digits in cell axes, for instance "
                               "100 along an edge or 001 along the axis of a honeycomb."));
}

TEST_CASE("a honeycomb crushed across its axis has no law and says so") {
  Catalogue catalogue = own_catalogue();
  CHECK_THROWS_MATCHES(
      choose_laws(catalogue.cell("honeycomb_uniform_wall"), round_metal(), "100", 0.1), OutOfDomain,
      Catch::Matchers::Message(
          "Hexagonal honeycomb, uniform wall: no law for the elastic modulus when crushed along 100. "
          "Directions with a law: 001. Turn the cell, or add a law to "
          "unit_cells/honeycomb_uniform_wall.yaml."));
}

TEST_CASE("a property that the material lacks is named with what to do") {
  Catalogue catalogue = own_catalogue();
  BaseMaterial metal = round_metal();
  metal.proof_stress.reset();
  CHECK_THROWS_MATCHES(
      choose_laws(catalogue.cell("octet"), metal, "100", 0.1), OutOfDomain,
      Catch::Matchers::Message("Round metal: without proof_stress no strength law of Octet truss can be "
                               "used. Add it, with its source, to base_materials/round-metal.yaml."));
  metal = round_metal();
  metal.youngs_modulus.reset();
  CHECK_THROWS_MATCHES(
      choose_laws(catalogue.cell("octet"), metal, "100", 0.1), OutOfDomain,
      Catch::Matchers::Message("Round metal: no Young's modulus, so Octet truss has no stiffness. Add "
                               "youngs_modulus, with its source, to base_materials/round-metal.yaml."));
  metal = round_metal();
  metal.density.reset();
  CHECK_THROWS_MATCHES(cell_properties(catalogue.cell("octet"), metal, "100", 0.1), OutOfDomain,
                       Catch::Matchers::Message("Round metal: no density, so neither mass nor specific energy can be "
                                                "given. Add density, with its source, to "
                                                "base_materials/round-metal.yaml."));
}
