#include "crushwright/errors.hpp"
#include "crushwright/scaling_law.hpp"

#include <catch2/catch.hpp>
#include <limits>

using namespace crushwright;

namespace {

PowerLaw three_halves() {
  PowerLaw law;
  law.origin.id = "own";
  law.origin.fitted_relative_density = {0.05, 0.30};
  law.coefficient = 0.3;
  law.exponent = 1.5;
  return law;
}

} // namespace

TEST_CASE("a power law is C times the relative density to the m") {
  // 0.3 x 0.09^1.5 = 0.3 x 0.027 (hand calculation)
  CHECK(evaluate(three_halves(), 0.09).value == Approx(0.0081).epsilon(1e-12));
  CHECK(evaluate(three_halves(), 0.09).inside_fitted_range);
}

TEST_CASE("a value outside the fitted range is flagged and still given") {
  CHECK_FALSE(evaluate(three_halves(), 0.04).inside_fitted_range);
  CHECK(evaluate(three_halves(), 0.04).value == Approx(0.0024).epsilon(1e-12));
  CHECK_FALSE(evaluate(three_halves(), 0.31).inside_fitted_range);
  CHECK(evaluate(three_halves(), 0.05).inside_fitted_range);
  CHECK(evaluate(three_halves(), 0.30).inside_fitted_range);
}

TEST_CASE("a relative density outside 0 to 1 is an error") {
  CHECK_THROWS_MATCHES(evaluate(three_halves(), 1.0), OutOfDomain,
                       Catch::Matchers::Message("law 'own': the relative density is 1 and must lie between 0 and 1"));
  CHECK_THROWS_AS(evaluate(three_halves(), 0.0), OutOfDomain);
  CHECK_THROWS_AS(evaluate(three_halves(), std::numeric_limits<double>::quiet_NaN()), OutOfDomain);
}

TEST_CASE("a densification strain leaving 0 to 1 is an error") {
  DensificationLaw law;
  law.origin.id = "own-locking";
  law.intercept = 1;
  law.slope = 1.4;
  CHECK(evaluate(law, 0.1).value == Approx(0.86).epsilon(1e-12));
  CHECK_THROWS_MATCHES(
      evaluate(law, 0.75), OutOfDomain,
      Catch::Matchers::Message("law 'own-locking': at relative density 0.75 the densification strain is "
                               "-0.05, outside 0 to 1"));
}

TEST_CASE("a stress basis is absent when the material lacks it") {
  BaseMaterial material;
  CHECK_FALSE(basis_stress(material, StressBasis::proof_stress).has_value());
  CHECK_FALSE(basis_stress(material, StressBasis::flow_stress).has_value());
  material.proof_stress = Quantity{};
  material.proof_stress->value = 200e6;
  CHECK(*basis_stress(material, StressBasis::flow_stress) == 200e6);
  CHECK_FALSE(basis_stress(material, StressBasis::ultimate_stress).has_value());
}
