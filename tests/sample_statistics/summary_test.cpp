#include "crushwright/errors.hpp"
#include "crushwright/sample_statistics.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

using namespace crushwright;

TEST_CASE("mean, scatter and interval of five values by hand") {
  // 8, 9, 10, 11, 12: s = sqrt(2.5); Student's t of 4 at 95 % is 2.776 (table, memory).
  const SampleSummary seen = summarise({8, 9, 10, 11, 12});
  CHECK(seen.count == 5);
  CHECK(seen.mean == 10);
  CHECK(*seen.standard_deviation == Approx(std::sqrt(2.5)));
  CHECK(*seen.coefficient_of_variation == Approx(std::sqrt(2.5) / 10));
  CHECK(*seen.mean_high - seen.mean == Approx(2.776 * std::sqrt(2.5 / 5)).epsilon(2e-4));
  CHECK(seen.mean - *seen.mean_low == Approx(*seen.mean_high - seen.mean));
}

TEST_CASE("one specimen has a mean and no scatter") {
  const SampleSummary seen = summarise({7});
  CHECK(seen.mean == 7);
  CHECK_FALSE(seen.standard_deviation);
  CHECK_FALSE(seen.mean_low);
}

TEST_CASE("no values, or one that is no number, are refused") {
  CHECK_THROWS_AS(summarise({}), OutOfDomain);
  CHECK_THROWS_AS(summarise({1, std::numeric_limits<double>::quiet_NaN()}), OutOfDomain);
  CHECK_THROWS_AS(summarise({1, 2}, 1.0), OutOfDomain);
}

TEST_CASE("a value far outside the others is named; even scatter names nobody") {
  CHECK(outliers({10.1, 9.9, 10.0, 10.2, 9.8, 10.1, 13.0}) == std::vector<std::size_t>{6});
  CHECK(outliers({10.1, 9.9, 10.0, 10.2, 9.8, 10.1, 9.95}).empty());
  CHECK(outliers({5, 5, 5, 5}).empty());
  CHECK(outliers({1, 100}).empty());
}

TEST_CASE("Grubbs' limit for seven values is 2.020") {
  // Two-sided 5 %, tables from memory. Six values at +-1 and 0 pattern with a seventh moved until it is just named.
  const auto named = [](double last) { return !outliers({-1, -1, -1, 1, 1, 1, last}).empty(); };
  const auto distance = [](double last) {
    const SampleSummary seen = summarise({-1, -1, -1, 1, 1, 1, last});
    return (last - seen.mean) / *seen.standard_deviation;
  };
  double low = 1, high = 50;
  for (int n = 0; n < 60; ++n) {
    const double middle = 0.5 * (low + high);
    (named(middle) ? high : low) = middle;
  }
  CHECK(distance(high) == Approx(2.020).margin(1e-3));
}
