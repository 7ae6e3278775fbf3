#include "column_check/fatigue_life.hpp"

#include "column_check/service_samples.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace service_samples;

namespace {

/// Made up.
FatigueStrength made_up() {
  FatigueStrength strength;
  strength.of = "skin";
  strength.amplitude = value(50e6);
  strength.cycles = value(1e7);
  strength.slope = value(5);
  strength.mean_stress_limit = value(300e6);
  strength.surface = "as built";
  return strength;
}

} // namespace

TEST_CASE("a load that comes and goes has half its size as amplitude and as mean; an alternating one no mean") {
  CHECK(cycle_of(80e6, false).amplitude == 40e6);
  CHECK(cycle_of(80e6, false).mean == 40e6);
  CHECK(cycle_of(80e6, true).amplitude == 80e6);
  CHECK(cycle_of(80e6, true).mean == 0);
}

TEST_CASE("Goodman's line joins the fully reversed amplitude to the ultimate stress") {
  // amplitude / S_e + mean / R_m = 1 (Goodman 1899; any handbook of machine elements, memory).
  CHECK(reversed_amplitude({40e6, 0}, 300e6) == 40e6);
  CHECK(reversed_amplitude({40e6, 60e6}, 300e6) == Approx(50e6).epsilon(1e-12)); // 40/50 + 60/300 = 1
  CHECK(reversed_amplitude({20e6, 180e6}, 300e6) == Approx(50e6).epsilon(1e-12));
  CHECK(std::isinf(reversed_amplitude({1e6, 300e6}, 300e6)));
}

TEST_CASE("life falls with amplitude to the power of the slope and passes through the stated point") {
  CHECK(cycles_to_failure(made_up(), {50e6, 0}) == Approx(1e7).epsilon(1e-12));
  CHECK(cycles_to_failure(made_up(), {100e6, 0}) == Approx(1e7 / 32).epsilon(1e-12));
  CHECK(cycles_to_failure(made_up(), {25e6, 0}) == Approx(32e7).epsilon(1e-12)); // no endurance limit
  CHECK(std::isinf(cycles_to_failure(made_up(), {0, 0})));
}

TEST_CASE("no load takes more than one life a cycle") {
  CHECK(cycles_to_failure(made_up(), {50e9, 0}) == 1);
  CHECK(cycles_to_failure(made_up(), {10e6, 400e6}) == 1);
}
