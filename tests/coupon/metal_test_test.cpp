#include "crushwright/errors.hpp"
#include "crushwright/metal_test.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <utility>

using namespace crushwright;
using Catch::Contains;

namespace {

constexpr double modulus = 70e9, coefficient = 420e6, exponent = 0.12;

/// Engineering strain of a bar with true stress s: elastic part plus (s/K)^(1/n), pulled or pressed.
double true_strain(double stress) {
  return stress / modulus + std::pow(stress / coefficient, 1 / exponent);
}

TestRecord bar(bool pulled, double compliance = 0, double toe = 0) {
  TestRecord record;
  record.kind = compliance > 0 ? RecordKind::force_displacement : RecordKind::stress_strain;
  record.file_name = "bar.csv";
  record.specimen.id = "bar";
  record.specimen.area = 20e-6;
  record.specimen.height = 25e-3;
  record.specimen.strain_rate = 1e-3;
  if (compliance > 0) {
    record.specimen.machine_compliance = compliance;
  }
  std::size_t line = 2;
  const auto add = [&](double strain, double stress) {
    const bool stresses = record.kind == RecordKind::stress_strain;
    const double force = stress * 20e-6;
    record.points.push_back(
        {stresses ? strain : strain * 25e-3 + compliance * force, stresses ? stress : force, 0, line++});
  };
  for (int i = 0; i < 20 && toe > 0; ++i) {
    add(toe * i / 20, 2e6 * std::pow(i / 20.0, 3));
  }
  double last = 0;
  for (double stress = toe > 0 ? 2e6 : 0; stress < 0.98 * coefficient; stress += 0.6e6) {
    const double strain = true_strain(stress);
    if (strain > 0.3) {
      break;
    }
    const double engineering_strain = pulled ? std::exp(strain) - 1 : 1 - std::exp(-strain);
    const double engineering = pulled ? stress / std::exp(strain) : stress * std::exp(strain);
    if (pulled && engineering < last) {
      break; // necking: Considere's point
    }
    last = engineering;
    add(toe + engineering_strain, engineering);
  }
  return record;
}

/// Engineering stress where the elastic line through 0.2 % meets the curve.
double proof_of_the_made_bar() {
  double low = 50e6, high = 400e6;
  for (int n = 0; n < 100; ++n) {
    const double stress = 0.5 * (low + high), strain = std::exp(true_strain(stress)) - 1;
    const double engineering = stress / (1 + strain);
    (strain - engineering / modulus < 0.002 ? low : high) = stress;
  }
  return low / std::exp(true_strain(low));
}

/// Slope of the made bar from 10 to 50 % of its proof stress: its hardening yields a little from the first load on,
/// and a section that narrows lowers the engineering stress.
double slope_of_the_made_bar() {
  const auto point = [](double share) {
    double low = 0, high = 300e6;
    for (int n = 0; n < 100; ++n) {
      const double stress = 0.5 * (low + high);
      (stress / std::exp(true_strain(stress)) < share * proof_of_the_made_bar() ? low : high) = stress;
    }
    return std::pair{std::exp(true_strain(low)) - 1, low / std::exp(true_strain(low))};
  };
  const auto [strain_1, stress_1] = point(0.1);
  const auto [strain_2, stress_2] = point(0.5);
  return (stress_2 - stress_1) / (strain_2 - strain_1);
}

} // namespace

TEST_CASE("a pulled bar gives back the modulus, proof stress and hardening that it was made with") {
  const MetalTest test = reduce_metal_test(bar(true), TestKind::metal_tension);
  CHECK(*test.youngs_modulus == Approx(slope_of_the_made_bar()).epsilon(2e-3));
  CHECK(*test.youngs_modulus == Approx(modulus).epsilon(0.01));
  CHECK(*test.proof_stress == Approx(proof_of_the_made_bar()).epsilon(1e-3));
  CHECK(*test.hardening_exponent == Approx(exponent).epsilon(5e-3));
  CHECK(*test.hardening_coefficient == Approx(coefficient).epsilon(5e-3));
  // Considere: a bar of K eps^n necks at a true strain of n.
  CHECK(std::log(1 + *test.uniform_elongation) == Approx(exponent).epsilon(0.06));
  CHECK(*test.ultimate_stress > *test.proof_stress);
  CHECK(test.warnings.empty());
}

TEST_CASE("a pressed bar of the same metal hardens by the same law and has no ultimate stress") {
  const MetalTest test = reduce_metal_test(bar(false), TestKind::metal_compression);
  CHECK(*test.youngs_modulus == Approx(modulus).epsilon(3e-3));
  CHECK(*test.hardening_exponent == Approx(exponent).epsilon(5e-3));
  CHECK(*test.proof_stress == Approx(proof_of_the_made_bar()).epsilon(0.02));
  CHECK_FALSE(test.ultimate_stress);
  CHECK_FALSE(test.fracture_elongation);
}

TEST_CASE("a stated compliance and a toe are taken off before the modulus is read") {
  const MetalTest test = reduce_metal_test(bar(true, 2e-8, 0.001), TestKind::metal_tension);
  CHECK(*test.youngs_modulus == Approx(slope_of_the_made_bar()).epsilon(3e-3));
  CHECK(*test.proof_stress == Approx(proof_of_the_made_bar()).epsilon(3e-3));
}

TEST_CASE("without an extensometer or a compliance the modulus is flagged") {
  TestRecord record = bar(true, 2e-8);
  record.specimen.machine_compliance.reset();
  const MetalTest test = reduce_metal_test(record, TestKind::metal_tension);
  CHECK(*test.youngs_modulus < 0.8 * modulus);
  REQUIRE_FALSE(test.warnings.empty());
  CHECK_THAT(test.warnings.front(), Contains("machine and grips"));
}

TEST_CASE("a bar that breaks on its elastic line has no proof stress, and says so") {
  TestRecord record = bar(true);
  record.points.resize(120);
  const MetalTest test = reduce_metal_test(record, TestKind::metal_tension);
  CHECK_FALSE(test.proof_stress);
  CHECK_THAT(test.warnings.front(), Contains("never leaves that line by 0.2 %"));
}

TEST_CASE("Johnson and Cook's constant comes back from stresses made with it") {
  std::vector<double> rates, stresses;
  for (const double rate : {1e-3, 1e-2, 1e-1, 1.0, 100.0}) {
    rates.push_back(rate);
    stresses.push_back(240e6 * (1 + 0.014 * std::log(rate / 1e-3)));
  }
  const RateFit fit = fitted_rate(rates, stresses);
  CHECK(fit.reference_rate == 1e-3);
  CHECK(fit.reference_stress == Approx(240e6));
  CHECK(fit.johnson_cook_C == Approx(0.014).epsilon(1e-9));
  CHECK(fit.largest_miss < 1e-9);
}

TEST_CASE("the interval of Johnson and Cook's constant holds it as often as it says") {
  constexpr int draws = 2000;
  std::mt19937_64 random(11);
  std::normal_distribution<double> noise(0, 4e6);
  const std::vector<double> rates{1e-3, 1e-3, 1e-2, 1e-2, 1.0, 1.0, 50, 50};
  int held = 0;
  for (int draw = 0; draw < draws; ++draw) {
    std::vector<double> stresses;
    for (const double rate : rates) {
      stresses.push_back(240e6 * (1 + 0.014 * std::log(rate / 1e-3)) + noise(random));
    }
    const RateFit fit = fitted_rate(rates, stresses);
    held += fit.johnson_cook_C_low <= 0.014 && 0.014 <= fit.johnson_cook_C_high ? 1 : 0;
  }
  // The stress at the reference is held in the interval: its own scatter costs a little of the rate.
  CHECK(held / double(draws) == Approx(0.95).margin(0.02));
}

TEST_CASE("Cowper and Symonds' constants come back when the slowest test stands for rest") {
  std::vector<double> rates, stresses;
  for (const double rate : {1e-6, 1.0, 10.0, 100.0, 1000.0}) {
    rates.push_back(rate);
    stresses.push_back(200e6 * (1 + std::pow(rate / 6500, 1 / 4.0)));
  }
  const RateFit fit = fitted_rate(rates, stresses);
  REQUIRE(fit.cowper_symonds_q);
  // The reference stress is the line's of the other form, not the slowest test's: the constants are near, not equal.
  CHECK(*fit.cowper_symonds_q > 1);
  CHECK(fit.largest_miss < 0.2);
}

TEST_CASE("two tests, or rates that lie close, make no rate law") {
  CHECK_THAT(fitted_rate({1e-3, 1.0}, {240e6, 260e6}).refusal, Contains("three or more"));
  CHECK_THAT(fitted_rate({1e-3, 2e-3, 5e-3}, {240e6, 241e6, 242e6}).refusal, Contains("a decade or more"));
  CHECK_THROWS_AS(fitted_rate({1e-3, 0, 1}, {240e6, 240e6, 240e6}), OutOfDomain);
}

TEST_CASE("a series of bars is summarised with the strength that may be claimed") {
  TestSeries series;
  series.title = "bars";
  series.kind = TestKind::metal_tension;
  for (int i = 0; i < 3; ++i) {
    series.records.push_back(bar(true));
    series.records.back().specimen.id = "bar " + std::to_string(i);
    for (RecordPoint& point : series.records.back().points) {
      point.load *= 1 + 0.01 * (i - 1);
    }
  }
  const MetalReport report = metal_report(series);
  const auto proof = std::find_if(report.summaries.begin(), report.summaries.end(),
                                  [](const PropertySummary& each) { return each.property == "proof stress"; });
  REQUIRE(proof != report.summaries.end());
  CHECK(proof->summary.count == 3);
  CHECK(proof->factor == Approx(6.155).margin(1e-3));
  CHECK(*proof->claimable_low == Approx(proof->summary.mean - proof->factor * *proof->summary.standard_deviation));
  CHECK_FALSE(report.rate.refusal.empty());
}
