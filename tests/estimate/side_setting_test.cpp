#include "estimate/side_setting.hpp"

#include "sample_cases.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;

namespace {

/// One-sided 95 % point of the normal distribution, as any table prints it.
constexpr double quantile_95 = 1.6448536269514722;

double log_of(double coefficient_of_variation) {
  return std::sqrt(std::log(1 + coefficient_of_variation * coefficient_of_variation));
}

ScatterSet scatter() {
  ScatterSet set;
  set.law.value = 0.12;
  set.build.value = 0.08;
  set.skin.value = 0.10;
  set.efficiency_strain.value = 0.04;
  set.interaction.value = 1.15;
  set.interaction.low = 1.00;
  set.interaction.high = 1.45;
  return set;
}

StructureModel filled_skin(double lattice_share) {
  StructureModel model;
  model.lattice_share = lattice_share;
  model.filled_skin = true;
  model.rate_low = 1.00;
  model.rate_nominal = 1.02;
  model.rate_high = 1.10;
  return model;
}

SideFactors factors(const StructureModel& model, const ScatterSet& set, Side side, bool stacked,
                    Densification densification = Densification::early) {
  return side_factors(model, set, 0.95, {side, stacked, densification});
}

} // namespace

TEST_CASE("independent scatters combine by root-sum-square of logarithms, stacked ones by their sum") {
  const StructureModel model = filled_skin(0.7);
  const double law = 0.7 * log_of(0.12), build = log_of(0.08), skin = 0.3 * log_of(0.10);
  const double combined = std::sqrt(law * law + build * build + skin * skin), stacked = law + build + skin;
  CHECK(factors(model, scatter(), Side::weak, false).force ==
        Approx(1.00 * 1.00 * std::exp(-quantile_95 * combined)).epsilon(1e-12));
  CHECK(factors(model, scatter(), Side::strong, false).force ==
        Approx(1.45 * 1.10 * std::exp(quantile_95 * combined)).epsilon(1e-12));
  CHECK(factors(model, scatter(), Side::weak, true).force ==
        Approx(1.00 * 1.00 * std::exp(-quantile_95 * stacked)).epsilon(1e-12));
  CHECK(factors(model, scatter(), Side::strong, true).force ==
        Approx(1.45 * 1.10 * std::exp(quantile_95 * stacked)).epsilon(1e-12));
  CHECK(factors(model, scatter(), Side::nominal, false).force == Approx(1.15 * 1.02).epsilon(1e-15));
}

TEST_CASE("the level is a one-sided quantile: 95 % is 1.6449 deviations, 50 % none") {
  StructureModel model;
  model.lattice_share = 1;
  ScatterSet set;
  set.build.value = 0.10;
  const SideSetting weak{Side::weak, false, Densification::early};
  const double deviation = log_of(0.10);
  CHECK(-std::log(side_factors(model, set, 0.95, weak).force) / deviation == Approx(1.6449).margin(5e-5));
  CHECK(-std::log(side_factors(model, set, 0.99, weak).force) / deviation == Approx(2.3263).margin(5e-5));
  CHECK(side_factors(model, set, 0.5, weak).force == Approx(1).epsilon(1e-12));
}

TEST_CASE("lattice and skin interact only where both are there") {
  StructureModel alone = filled_skin(1);
  alone.filled_skin = false;
  alone.rate_low = alone.rate_nominal = alone.rate_high = 1;
  CHECK(factors(alone, scatter(), Side::nominal, false).force == 1);
  const double spread = std::exp(quantile_95 * std::hypot(log_of(0.12), log_of(0.08)));
  CHECK(factors(alone, scatter(), Side::strong, false).force == Approx(spread).epsilon(1e-12));
  CHECK(factors(alone, scatter(), Side::weak, false).force == Approx(1 / spread).epsilon(1e-12));
}

TEST_CASE("untested, the strong side takes the interaction law where it is more than the range") {
  StructureModel model = filled_skin(0.7);
  const double within = factors(model, scatter(), Side::strong, false).force;
  model.interaction_law = 1.30;
  CHECK(factors(model, scatter(), Side::strong, false).force == Approx(within).epsilon(1e-15));
  model.interaction_law = 1.80;
  CHECK(factors(model, scatter(), Side::strong, false).force == Approx(within * 1.80 / 1.45).epsilon(1e-12));
  // Energy checks and the nominal run never take it.
  CHECK(factors(model, scatter(), Side::nominal, false).force == Approx(1.15 * 1.02).epsilon(1e-15));
  // A tested interaction replaces it.
  ScatterSet tested = scatter();
  tested.interaction_tested = true;
  CHECK(factors(model, tested, Side::strong, false).force == Approx(within).epsilon(1e-15));
}

TEST_CASE("scatter of the efficiency strain lengthens and shortens the crush and leaves the force") {
  const StructureModel model = filled_skin(0.7);
  const double early = factors(model, scatter(), Side::weak, false, Densification::early).crush;
  const double late = factors(model, scatter(), Side::weak, false, Densification::late).crush;
  CHECK(early == Approx(std::exp(-quantile_95 * log_of(0.04))).epsilon(1e-12));
  CHECK(early * late == Approx(1).epsilon(1e-12));
  CHECK(factors(model, scatter(), Side::weak, false, Densification::late).force ==
        factors(model, scatter(), Side::weak, false, Densification::early).force);
  CHECK(factors(model, scatter(), Side::nominal, false, Densification::nominal).crush == 1);
}

TEST_CASE("with nothing that scatters the three sides are one") {
  StructureModel model;
  model.lattice_share = 1;
  for (const SideSetting& setting : side_settings()) {
    const SideFactors same = side_factors(model, ScatterSet{}, 0.95, setting);
    CHECK(same.force == 1);
    CHECK(same.crush == 1);
  }
}

TEST_CASE("a scatter counted from few specimens stands off by its own factor, the others by the normal quantile") {
  StructureModel model;
  model.lattice_share = 1;
  ScatterSet set;
  set.law.value = 0.04;
  set.build.value = 0.05;
  set.counted_law = {5, 4.2};
  const double z = quantile_95, law = 4.2 * log_of(0.04), build = z * log_of(0.05);
  const double weak = side_factors(model, set, 0.95, {Side::weak, false, Densification::early}).force;
  CHECK(std::log(weak) == Approx(-std::sqrt(law * law + build * build)).epsilon(1e-12));
  const double stacked = side_factors(model, set, 0.95, {Side::strong, true, Densification::early}).force;
  CHECK(std::log(stacked) == Approx(law + build).epsilon(1e-12));
}
