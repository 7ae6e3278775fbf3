#include "crushwright/errors.hpp"
#include "scaling_law/bounds.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;

TEST_CASE("the Hashin-Shtrikman bound gives its known values for Poisson's ratio 0.3") {
  // Hashin, Shtrikman, J. Mech. Phys. Solids 11 (1963) 127; values recalled, two forms agree. Tolerance: printed
  // digits.
  CHECK(hashin_shtrikman_modulus(0.1, 0.3) == Approx(0.05252).margin(0.000005));
  CHECK(hashin_shtrikman_modulus(0.2, 0.3) == Approx(0.11089).margin(0.000005));
  CHECK(hashin_shtrikman_modulus(0.3, 0.3) == Approx(0.17614).margin(0.000005));
}

TEST_CASE("the bulk bound is the stiffness of the hollow sphere assemblage") {
  // Second method: Lame's thick sphere of volume fraction ρ under outer pressure p, free inside. With a the inner and
  // b the outer radius, f = 1 - ρ = (a/b)^3, the volume strain is p/(1-f) (1/K + 3f/(4G)).
  for (const double density : {0.05, 0.1, 0.3, 0.7, 0.95}) {
    const double nu = 0.3;
    const double bulk = 1 / (3 * (1 - 2 * nu));
    const double shear = 1 / (2 * (1 + nu));
    const double hollow = 1 - density;
    const double sphere = density / (1 / bulk + 3 * hollow / (4 * shear));
    CHECK(hashin_shtrikman_bulk_modulus(density, nu) == Approx(sphere).epsilon(1e-12));
  }
}

TEST_CASE("a solid without pores reaches the bounds of the solid itself") {
  CHECK(hashin_shtrikman_modulus(1 - 1e-9, 0.3) == Approx(1.0).epsilon(1e-8));
  CHECK(suquet_collapse_stress(1 - 1e-9) == Approx(1.0).epsilon(1e-8));
}

TEST_CASE("the bound on collapse gives its known value at relative density 0.2") {
  // Suquet (1993); value recalled. Tolerance: printed digits.
  CHECK(suquet_collapse_stress(0.2) == Approx(0.1519).margin(0.00005));
}

TEST_CASE("the bound on collapse is the elastic bound of an incompressible solid in disguise") {
  // Second method: a bound on E for a linear incompressible matrix turns into one on the limit load by
  // σ* <= σy sqrt(ρ E*/E) (Ponte Castaneda's variational argument for a uniform comparison solid).
  for (const double density : {0.05, 0.1, 0.2, 0.4}) {
    const double elastic = hashin_shtrikman_modulus(density, 0.5 - 1e-9);
    CHECK(suquet_collapse_stress(density) == Approx(std::sqrt(density * elastic)).epsilon(1e-6));
  }
}

TEST_CASE("a bound outside its physical domain is refused with the value") {
  CHECK_THROWS_MATCHES(
      hashin_shtrikman_modulus(1.2, 0.3), OutOfDomain,
      Catch::Matchers::Message("bound on a porous solid: the relative density is 1.2 and must lie between 0 and 1"));
  CHECK_THROWS_MATCHES(hashin_shtrikman_modulus(0.2, 0.5), OutOfDomain,
                       Catch::Matchers::Message(
                           "bound on a porous solid: the Poisson's ratio is 0.5 and must lie between -1 and 0.5"));
  CHECK_THROWS_AS(suquet_collapse_stress(0), OutOfDomain);
}
