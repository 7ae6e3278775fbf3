// One-sided factors as tabled in ISO 16269-6 and in handbooks, from memory.
#include "crushwright/errors.hpp"
#include "crushwright/sample_statistics.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace crushwright;

TEST_CASE("one-sided factors for 90 % of the population at 95 % confidence are the tabled ones") {
  CHECK(one_sided_tolerance_factor(3) == Approx(6.16).margin(0.005));
  CHECK(one_sided_tolerance_factor(5) == Approx(3.41).margin(0.005));
  CHECK(one_sided_tolerance_factor(10) == Approx(2.36).margin(0.006));
  CHECK(one_sided_tolerance_factor(30) == Approx(1.78).margin(0.005));
}

TEST_CASE("two-sided factors at 95 % confidence are the tabled ones") {
  // Berthouex and Brown, Statistics for Environmental Engineers, table 21.1 (read): shares of 90, 95 and 99 %.
  struct Row {
    std::size_t count;
    double of_90, of_95, of_99;
  };
  for (const Row& row : {Row{4, 5.37, 6.34, 8.22}, Row{5, 4.29, 5.08, 6.60}, Row{6, 3.73, 4.42, 5.76},
                         Row{8, 3.16, 3.75, 4.89}, Row{10, 2.86, 3.39, 4.44}, Row{15, 2.49, 2.96, 3.89},
                         Row{20, 2.32, 2.76, 3.62}, Row{30, 2.15, 2.55, 3.35}, Row{60, 1.96, 2.34, 3.07}}) {
    INFO(row.count);
    CHECK(two_sided_tolerance_factor(row.count, 0.90) == Approx(row.of_90).margin(0.015));
    CHECK(two_sided_tolerance_factor(row.count, 0.95) == Approx(row.of_95).margin(0.015));
    CHECK(two_sided_tolerance_factor(row.count, 0.99) == Approx(row.of_99).margin(0.015));
  }
}

TEST_CASE("two-sided factors lie near Howe's approximation, closer the more specimens there are") {
  // Howe 1969: z_(1+P)/2 sqrt((1 + 1/n) (n - 1) / chi2_(1-g; n-1)); chi-square quantiles at 5 %, tables from memory.
  const auto howe = [](double n, double chi_square) {
    return 1.644854 * std::sqrt((1 + 1 / n) * (n - 1) / chi_square);
  };
  CHECK(two_sided_tolerance_factor(10) == Approx(howe(10, 3.325)).epsilon(0.01));
  CHECK(two_sided_tolerance_factor(30) == Approx(howe(30, 17.708)).epsilon(0.003));
}

TEST_CASE("with ever more specimens the factors fall to those of a known scatter") {
  CHECK(one_sided_tolerance_factor(1000000) == Approx(1.28155).epsilon(3e-3));
  CHECK(two_sided_tolerance_factor(100000) == Approx(1.64485).epsilon(6e-3));
  double before = 1e9;
  for (std::size_t n = 2; n < 60; n += 7) {
    CHECK(one_sided_tolerance_factor(n) < before);
    before = one_sided_tolerance_factor(n);
  }
}

TEST_CASE("a claim from n specimens holds as often as its confidence says") {
  constexpr int draws = 4000;
  std::mt19937_64 random(20261128);
  std::normal_distribution<double> strength(10, 0.8);
  const double tenth_percentile = 10 - 1.2815516 * 0.8;
  for (const std::size_t n : {3U, 8U}) {
    const double k = one_sided_tolerance_factor(n), both = two_sided_tolerance_factor(n);
    int held = 0, both_held = 0;
    for (int draw = 0; draw < draws; ++draw) {
      std::vector<double> values(n);
      for (double& value : values) {
        value = strength(random);
      }
      const SampleSummary seen = summarise(values);
      const double s = *seen.standard_deviation;
      held += seen.mean - k * s <= tenth_percentile ? 1 : 0;
      const auto below = [](double x) { return 0.5 * std::erfc(-(x - 10) / 0.8 / std::sqrt(2.0)); };
      both_held += below(seen.mean + both * s) - below(seen.mean - both * s) >= 0.9 ? 1 : 0;
    }
    // Three standard deviations of the count.
    const double band = 3 * std::sqrt(0.95 * 0.05 / draws);
    CHECK(held / double(draws) == Approx(0.95).margin(band));
    CHECK(both_held / double(draws) == Approx(0.95).margin(band));
  }
}

TEST_CASE("a claim from one specimen, or for all of a population, is refused") {
  CHECK_THROWS_AS(one_sided_tolerance_factor(1), OutOfDomain);
  CHECK_THROWS_AS(two_sided_tolerance_factor(5, 1.0, 0.95), OutOfDomain);
  CHECK_THROWS_AS(one_sided_tolerance_factor(5, 0.9, 0.0), OutOfDomain);
}
