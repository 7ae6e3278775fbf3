#include "printability/build_cost.hpp"

#include "printability/sample_subjects.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using sample_subjects::value;

namespace {

/// Invented rates in round numbers.
PrintRates rates() {
  PrintRates input;
  input.layer_thickness = value(50e-6);
  input.recoat_time = value(9);
  input.volume_rate = value(36e-6 / 3600); // 36 cm³/h
  return input;
}

/// 300 mm high, 720 cm³, 1.9 kg.
const BuildWork work{{0.3}, 720e-6, 1.9, 2.5};

} // namespace

TEST_CASE("time is layers times recoating and melted volume over the volume rate") {
  // 6,000 layers of 9 s are 15 h; 720 cm³ at 36 cm³/h are 20 h.
  CHECK(build_time(work, rates()) == Approx(35 * 3600).epsilon(1e-12));
}

TEST_CASE("parts in one build share the recoating and not the melting") {
  PrintRates shared = rates();
  shared.parts_per_build = 3;
  CHECK(build_time(work, shared) == Approx((5 + 20) * 3600).epsilon(1e-12));
}

TEST_CASE("a stated contour rate adds the surface that is traced") {
  PrintRates traced = rates();
  traced.contour_rate = value(0.5 / 3600); // 0.5 m²/h
  CHECK(build_time(work, traced) == Approx((35 + 5) * 3600).epsilon(1e-12));
}

TEST_CASE("a layer begun is a layer recoated, and each piece has its own") {
  PrintRates slow = rates();
  slow.recoat_time = value(1);
  slow.volume_rate = value(1e9);
  CHECK(build_time({{100e-6}, 0, 0, 0}, slow) == Approx(2).margin(1e-9));
  CHECK(build_time({{101e-6}, 0, 0, 0}, slow) == Approx(3).margin(1e-9));
  CHECK(build_time({{101e-6, 40e-6}, 0, 0, 0}, slow) == Approx(4).margin(1e-9));
}

TEST_CASE("cost is machine hours, powder with its loss, and the share of each build") {
  PrintRates priced = rates();
  priced.currency = "crowns";
  priced.cost_per_hour = value(40);
  CHECK(*build_cost(work, priced) == Approx(35 * 40).epsilon(1e-12));
  priced.cost_per_kg = value(60);
  priced.powder_loss = value(0.1);
  CHECK(*build_cost(work, priced) == Approx(1400 + 1.9 * 1.1 * 60).epsilon(1e-12));
  priced.cost_per_build = value(500);
  CHECK(*build_cost(work, priced) == Approx(1400 + 125.4 + 500).epsilon(1e-12));
  priced.parts_per_build = 2;
  CHECK(*build_cost(work, priced) == Approx((7.5 + 20) * 40 + 125.4 + 250).epsilon(1e-12));
}

TEST_CASE("without a currency there is no cost") {
  PrintRates priceless = rates();
  CHECK_FALSE(build_cost(work, priceless).has_value());
}
