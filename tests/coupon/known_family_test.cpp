#include "crushwright/coupon_series.hpp"
#include "crushwright/errors.hpp"

#include "coupon/made_family.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <string>
#include <utility>

using namespace crushwright;

TEST_CASE("a record with toe, drift, compliance, loop and no noise gives back the truth it was made from") {
  made_family::Family family;
  family.noise = 0;
  std::mt19937_64 random(1);
  for (const double density : {0.08, 0.14, 0.25}) {
    const made_family::Truth truth = made_family::truth_of(family, density, random, 0.06);
    const ReducedSpecimen found = reduce_specimen(made_family::record_of(family, density, truth, "T", random),
                                                  family.solid_density, 0.20, 0.40);
    CHECK(found.quantities.plateau_stress == Approx(truth.plateau_stress).epsilon(1e-5));
    CHECK(found.quantities.efficiency_strain == Approx(truth.efficiency_strain).margin(0.003)); // steps of 0.0027
    REQUIRE(found.elastic_gradient);
    CHECK(*found.elastic_gradient == Approx(truth.modulus).epsilon(1e-3));
    CHECK(*found.relative_density == Approx(density).epsilon(1e-9));
    CHECK(found.test.toe_strain == Approx(family.toe).margin(2e-4));
  }
}

TEST_CASE("noise of one percent leaves plateau and zero of the load without bias") {
  made_family::Family family;
  family.noise = 0.01; // the load's zero is off by 3 %
  std::mt19937_64 random(5);
  double miss = 0;
  constexpr int tests = 200;
  for (int i = 0; i < tests; ++i) {
    const double density = 0.08 + 0.17 * i / tests;
    const made_family::Truth truth = made_family::truth_of(family, density, random, 0.06);
    const ReducedSpecimen found = reduce_specimen(made_family::record_of(family, density, truth, "T", random),
                                                  family.solid_density, 0.20, 0.40);
    CHECK(found.test.loops.size() == 1);
    miss += (found.quantities.plateau_stress / truth.plateau_stress - 1) / tests;
  }
  CHECK(std::fabs(miss) < 1e-3);
}

TEST_CASE("the laws' 95 percent intervals hold the true constants in 95 percent of two thousand series") {
  made_family::Family family;
  family.points = 150;
  std::mt19937_64 random(20261128);
  constexpr int draws = 2000;
  // Scatter of strength differs from density to density, by a factor of four.
  const std::array<std::pair<double, double>, 4> densities{{{0.08, 0.10}, {0.12, 0.025}, {0.18, 0.05}, {0.25, 0.08}}};
  std::array<int, 6> held{};
  for (int draw = 0; draw < draws; ++draw) {
    TestSeries series;
    for (const auto& [density, scatter] : densities) {
      for (int i = 0; i < 5; ++i) {
        const made_family::Truth truth = made_family::truth_of(family, density, random, scatter);
        series.records.push_back(
            made_family::record_of(family, density, truth, std::to_string(series.records.size()), random));
      }
    }
    const CouponReport report =
        coupon_report(series, {family.solid_density, family.youngs_modulus, family.proof_stress});
    const std::array<double, 6> truths{
        family.strength_coefficient, family.strength_exponent, family.stiffness_coefficient,
        family.stiffness_exponent,   family.intercept,         family.slope};
    for (std::size_t law = 0; law < 3; ++law) {
      const MeasuredLaw& found = report.laws[law];
      REQUIRE(found.refusal.empty());
      held[2 * law] += found.coefficient_low <= truths[2 * law] && truths[2 * law] <= found.coefficient_high ? 1 : 0;
      held[2 * law + 1] +=
          found.exponent_low <= truths[2 * law + 1] && truths[2 * law + 1] <= found.exponent_high ? 1 : 0;
    }
  }
  // 1900 of 2000 expected; three standard deviations of a binomial count are 29.
  for (const int count : held) {
    INFO("held " << count << " of " << draws);
    CHECK(std::abs(count - 1900) <= 29);
  }
}

TEST_CASE("records spoilt at random end in a message with their file, or in a curve whose strain rises") {
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> uniform;
  int curves = 0;
  int messages = 0;
  for (int i = 0; i < 2000; ++i) {
    made_family::Family family;
    family.points = 12 + static_cast<int>(150 * uniform(random));
    family.noise = std::pow(10, -4 + 3 * uniform(random));
    family.toe = 0.1 * uniform(random);
    family.approach = 0.3 * uniform(random);
    family.zero = uniform(random) - 0.5;
    family.machine_compliance = std::pow(10, -10 + 3 * uniform(random));
    const made_family::Truth truth = made_family::truth_of(family, 0.05 + 0.3 * uniform(random), random, 0.05);
    TestRecord record = made_family::record_of(family, 0.1, truth, "T", random);
    const int way = i % 6;
    if (way == 1) {
      std::shuffle(record.points.begin(), record.points.end(), random);
    } else if (way == 2) {
      std::reverse(record.points.begin(), record.points.end());
    } else if (way == 3) {
      record.points.resize(1 + static_cast<std::size_t>(20 * uniform(random)));
    }
    for (RecordPoint& point : record.points) {
      point.load = way == 4 && uniform(random) < 0.1 ? 0 : point.load;
      point.along = way == 5 ? 0.02 * uniform(random) : point.along;
    }
    try {
      const ReducedSpecimen found = reduce_specimen(record, family.solid_density, 0.20, 0.40);
      const std::vector<double>& strain = found.test.curve.strain;
      REQUIRE(std::adjacent_find(strain.begin(), strain.end(), [](double a, double b) { return !(a < b); }) ==
              strain.end());
      REQUIRE(std::isfinite(found.quantities.plateau_stress));
      ++curves;
    } catch (const InputError& message) {
      REQUIRE(std::string(message.what()).rfind("made.csv", 0) == 0);
      ++messages;
    }
  }
  CHECK(curves > 300);
  CHECK(messages > 1000);
}
