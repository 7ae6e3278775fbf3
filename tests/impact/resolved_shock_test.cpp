#include "crushwright/errors.hpp"
#include "crushwright/resolved_impact.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("at the onset speed the shock term is a tenth of the plateau stress") {
  const double onset = shock_onset_speed(5e6, 300, 0.6);
  CHECK(onset == Approx(31.6227766)); // √(0.1 · 5e6 · 0.6 / 300) = √1000
  CHECK(shock_stress(5e6, 300, onset, 0.6) == Approx(5.5e6));
  CHECK(shock_stress(5e6, 300, 0, 0.6) == 5e6);
}

TEST_CASE("a shock is refused outside its domain") {
  CHECK_THROWS_AS(shock_stress(-1, 300, 10, 0.6), OutOfDomain);
  CHECK_THROWS_AS(shock_stress(5e6, 0, 10, 0.6), OutOfDomain);
  CHECK_THROWS_AS(shock_stress(5e6, 300, -1, 0.6), OutOfDomain);
  CHECK_THROWS_AS(shock_stress(5e6, 300, 10, 1), OutOfDomain);
  CHECK_THROWS_AS(shock_onset_speed(5e6, 300, 0), OutOfDomain);
}
