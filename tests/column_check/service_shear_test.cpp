#include "column_check/service_shear.hpp"

#include "column_check/service_samples.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace service_samples;

TEST_CASE("a square thin box has Cowper's shear coefficient 20 (1 + nu) / (48 + 39 nu)") {
  // Cowper (1966), thin-walled square tube; memory.
  CHECK(skin_shear_coefficient(box(0, 0.1, 0.1, 0.001), about_vertical) ==
        Approx(20 * 1.3 / (48 + 39 * 0.3)).epsilon(1e-12));
}

TEST_CASE("a deep narrow box carries shear by all of its wall as a solid rectangle does, a flat one by little") {
  // Without flanges the form becomes that of a solid rectangle, 10 (1 + nu) / (12 + 11 nu); Cowper (1966), memory.
  CHECK(skin_shear_coefficient(box(0, 0.0001, 1, 0.00001), about_lateral) == Approx(13 / (12 + 3.3)).epsilon(2e-3));
  // Webs alone carry: share of the wall h / (b + h).
  const double flat = skin_shear_coefficient(box(0, 0.3, 0.05, 0.001), about_lateral);
  CHECK(flat < 0.05 / 0.35);
  CHECK(flat > 0.02);
  CHECK(skin_shear_coefficient(bare(0, 0.1, 0.1), about_lateral) == 0);
}
