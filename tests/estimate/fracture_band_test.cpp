#include "estimate/fracture_band.hpp"

#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

const Catalogue& catalogue() {
  static const Catalogue own = own_catalogue();
  return own;
}

BaseMaterial breaking_at(double elongation, std::optional<double> low = std::nullopt) {
  BaseMaterial metal = catalogue().material("AlSi10Mg-stress-relieved");
  metal.fracture_elongation->value = elongation;
  metal.fracture_elongation->low = low;
  return metal;
}

} // namespace

TEST_CASE("metal that folds keeps its force, metal that breaks at once keeps half of it") {
  CHECK(fracture_low(breaking_at(0.08)) == 1);
  CHECK(fracture_low(breaking_at(0.12)) == 1);
  CHECK(fracture_low(breaking_at(0.0799999)) == Approx(1).epsilon(1e-5));
  CHECK(fracture_low(breaking_at(0)) == 0.5);
  CHECK(fracture_low(breaking_at(0.04)) == Approx(0.75)); // folded half way, then half of the force
  CHECK(fracture_low(breaking_at(0.05)) < fracture_low(breaking_at(0.06)));
}

TEST_CASE("the low end of the elongation counts, where its middle says that the metal breaks") {
  CHECK(fracture_low(breaking_at(0.06, 0.04)) == Approx(0.75));
  CHECK(fracture_low(breaking_at(0.12, 0.05)) == 1);
}

TEST_CASE("metal without a fracture elongation is not judged") {
  BaseMaterial metal = breaking_at(0.02);
  metal.fracture_elongation.reset();
  CHECK(fracture_low(metal) == 1);
}

TEST_CASE("of the catalogue these metals break: as-built and fully aged ones") {
  for (const std::string& id : catalogue().material_ids()) {
    INFO(id);
    const bool breaks = id == "AlSi10Mg-as-built" || id == "Ti-6Al-4V-as-built" || id == "17-4PH-H900" ||
                        id == "18Ni-300-aged" || id == "aluminium-5052-H38-foil";
    CHECK((fracture_low(catalogue().material(id)) < 1) == breaks);
  }
}

TEST_CASE("a plateau measured on the lattice, a foam and rolled foil hold their breaking already") {
  const UnitCell& octet = catalogue().cell("octet");
  const BaseMaterial& as_built = catalogue().material("AlSi10Mg-as-built");
  const FractureBand computed = fracture_band(octet, as_built, Evidence::computed);
  CHECK(computed.low == Approx(0.5 * (1 + 0.024 / 0.08)));
  CHECK_THAT(computed.note, Catch::Contains("2.4 %") && Catch::Contains("65 %") && Catch::Contains("coupon"));
  CHECK(fracture_band(octet, as_built, Evidence::measured).low == 1);
  CHECK(fracture_band(octet, as_built, Evidence::measured).note.empty());
  CHECK(fracture_band(catalogue().cell("metal_foam_closed"), as_built, Evidence::computed).low == 1);
  CHECK(fracture_band(catalogue().cell("honeycomb_doubled_wall"), catalogue().material("aluminium-5052-H38-foil"),
                      Evidence::published)
            .low == 1);
}

TEST_CASE("what the user states of the plateau goes before the rule") {
  Quantity stated;
  stated.value = 0.7;
  const BaseMaterial& as_built = catalogue().material("AlSi10Mg-as-built");
  const UnitCell& octet = catalogue().cell("octet");
  CHECK(fracture_band(octet, as_built, Evidence::computed, stated).low == 0.7);
  CHECK_THAT(fracture_band(octet, as_built, Evidence::computed, stated).note, Catch::Contains("70 %"));
  stated.low = 0.6;
  CHECK(fracture_band(octet, as_built, Evidence::measured, stated).low == 0.6);
  stated.low = stated.value = 1;
  CHECK(fracture_band(octet, as_built, Evidence::computed, stated).low == 1);
  CHECK(fracture_band(octet, as_built, Evidence::computed, stated).note.empty());
}
