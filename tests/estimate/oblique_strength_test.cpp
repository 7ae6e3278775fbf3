#include "estimate/oblique_strength.hpp"

#include "crushwright/errors.hpp"
#include "estimate/cell_cache.hpp"
#include "estimate/shear_ratio.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace crushwright;

namespace {

constexpr double degree = std::numbers::pi / 180;

const Catalogue& catalogue() {
  static const Catalogue own = own_catalogue();
  return own;
}

ObliqueStrength strength_of(const char* cell, const char* direction, double density) {
  return oblique_strength(catalogue().cell(cell), catalogue().material("AlSi10Mg-stress-relieved"), direction,
                          density);
}

} // namespace

TEST_CASE(
    "an isotropic foam carries (1 + 3 tan² θ)^(-1/2) when it keeps its volume and (1 + 2 tan² θ)^(-1/2) when it "
    "does not spread") {
  // Mises; and Deshpande, Fleck, JMPS 48 (2000) 1253, σe² + α² σm² constant: memory, derived again in the method
  // page.
  const ObliqueStrength foam = strength_of("metal_foam_closed", "100", 0.1);
  REQUIRE(foam.angles.size() == 7);
  for (std::size_t k = 0; k < foam.angles.size(); ++k) {
    CHECK(foam.angles[k] == Approx(5 * degree * static_cast<double>(k)));
    const double square = std::pow(std::tan(foam.angles[k]), 2);
    CHECK(foam.low[k] == Approx(1 / std::sqrt(1 + 3 * square)).epsilon(1e-12));
    CHECK(foam.high[k] == Approx(1 / std::sqrt(1 + 2 * square)).epsilon(1e-12));
  }
  CHECK(foam.evidence == Evidence::generic);
}

TEST_CASE("the quadratic surface is met where both shares of strength add up to 1 as squares") {
  const double axial = on_quadratic_surface(0.4, 20 * degree);
  CHECK(axial * axial + std::pow(axial * std::tan(20 * degree) / 0.4, 2) == Approx(1).epsilon(1e-12));
  CHECK(on_quadratic_surface(0.4, 0) == 1);
}

TEST_CASE("every cell of the catalogue carries its whole crush force along its axis and less at an angle") {
  for (const std::string& id : catalogue().cell_ids()) {
    INFO(id);
    const UnitCell& cell = catalogue().cell(id);
    const char* direction = cell.cell_class == CellClass::honeycomb ? "001" : "100";
    const ObliqueStrength strength = strength_of(id.c_str(), direction, 0.15);
    CHECK(strength.low.front() == 1);
    CHECK(strength.high.front() == 1);
    for (std::size_t k = 1; k < strength.angles.size(); ++k) {
      CHECK(strength.low[k] > 0);
      CHECK(strength.low[k] <= strength.high[k]);
      CHECK(strength.low[k] < 1);
      CHECK(strength.high[k] <= 1);
    }
    CHECK(strength.evidence == (cell.cell_class == CellClass::strut ? Evidence::computed : Evidence::generic));
    CHECK(!strength.how.empty());
  }
}

TEST_CASE("between the angles the factor runs straight, on both sides of the axis alike, and ends at 30 degrees") {
  const ObliqueStrength strength = strength_of("octet", "100", 0.12);
  CHECK(factor_at(strength, 0).low == 1);
  CHECK(factor_at(strength, 5 * degree).low == Approx(strength.low[1]));
  CHECK(factor_at(strength, 30 * degree).high == strength.high.back());
  const ObliqueFactor between = factor_at(strength, 12 * degree);
  CHECK(between.low == Approx(strength.low[2] + 0.4 * (strength.low[3] - strength.low[2])));
  CHECK(factor_at(strength, -12 * degree).low == between.low);
  CHECK(factor_at(strength, -12 * degree).high == between.high);
  CHECK_THROWS_AS(factor_at(strength, 31 * degree), OutOfDomain);
  CHECK_THROWS_WITH(factor_at(strength, 31 * degree), Catch::Contains("31"));
}

TEST_CASE("an octet's bars loaded by the shear carry two tangents more, less what its joints add") {
  // 1 / (1 + 2 tan θ) for pins, derived in tests/homogenisation/oblique_collapse_test.cpp.
  const ObliqueStrength strength = strength_of("octet", "100", 0.03);
  const double pins = 1 / (1 + 2 * std::tan(30 * degree));
  CHECK(strength.low.back() > pins);
  CHECK(strength.low.back() < 1.15 * pins);
}

TEST_CASE("plates along the faces of a cube carry shear in one plane of three") {
  // Derived: along an edge two families of plates of three carry the axial stress, the shear one at σy/√3: τ/σ is
  // 1/(2√3). Its stiffness: E = 2/3 ρ̄ Es (and a little for what the plates hold of each other's spreading), G = ρ̄
  // Gs/3.
  const UnitCell& cell = catalogue().cell("cubic_plate");
  const ShearStrengthRange range = shear_strength_range(cell, "100", 0.12);
  CHECK(range.low == Approx(1 / (2 * std::sqrt(3.0))).epsilon(0.03));
}

TEST_CASE("a size in a cache is near the one asked for, the same for all that are near, and in the cell's range") {
  const UnitCell& cell = catalogue().cell("octet");
  for (const double ratio : {0.05, 0.0712, 0.13}) {
    CHECK(rounded_ratio(cell, ratio, 0.04) == Approx(ratio).epsilon(0.0203));
    CHECK(rounded_ratio(cell, rounded_ratio(cell, ratio, 0.04), 0.04) == rounded_ratio(cell, ratio, 0.04));
  }
  CHECK(cell.size_ratio_range.contains(rounded_ratio(cell, cell.size_ratio_range.low, 0.04)));
  CHECK(cell.size_ratio_range.contains(rounded_ratio(cell, cell.size_ratio_range.high, 0.04)));
  UnitCell other = cell;
  other.struts.pop_back();
  CHECK(cell_key(cell, "100", 0.1) != cell_key(other, "100", 0.1));
  CHECK(cell_key(cell, "100", 0.1) != cell_key(cell, "110", 0.1));
  // Which size came first must not show.
  const double first = strength_of("bcc", "100", 0.1500).low.back();
  CHECK(strength_of("bcc", "100", 0.1501).low.back() == first);
}

TEST_CASE("a density that a cell does not reach is refused") {
  CHECK_THROWS_AS(strength_of("octet", "100", 0.99), OutOfDomain);
  CHECK_THROWS_AS(shear_ratio(catalogue().cell("octet"), "100", 0.99), OutOfDomain);
}
