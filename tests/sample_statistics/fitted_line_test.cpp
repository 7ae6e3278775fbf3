#include "crushwright/errors.hpp"
#include "crushwright/sample_statistics.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace crushwright;

TEST_CASE("points on a line give the line back without any scatter") {
  const LineFit fit = fitted_line({1, 2, 4, 8}, {5, 7, 11, 19});
  CHECK(fit.slope == Approx(2));
  CHECK(fit.intercept == Approx(3));
  CHECK(fit.residual_deviation == Approx(0).margin(1e-12));
  CHECK(fit.leave_one_out_error == Approx(0).margin(1e-11));
  CHECK(fit.outliers.empty());
}

TEST_CASE("a line through four points with its intervals, by hand") {
  // x 1 2 3 4, y 2 4 5 4: slope 0.7, intercept 2; residuals -0.7 0.6 0.9 -0.8, sum of squares 2.3, s^2 1.15.
  const LineFit fit = fitted_line({1, 2, 3, 4}, {2, 4, 5, 4});
  CHECK(fit.slope == Approx(0.7));
  CHECK(fit.intercept == Approx(2.0));
  CHECK(fit.residual_deviation == Approx(std::sqrt(1.15)));
  CHECK(fit.covariance[2] == Approx(1.15 / 5));
  CHECK(fit.covariance[0] == Approx(1.15 * (0.25 + 6.25 / 5)));
  // Student's t of 2 at 95 %: 4.303 (table, memory).
  CHECK(fit.slope_high - fit.slope == Approx(4.303 * std::sqrt(0.23)).epsilon(2e-4));
  CHECK(band_of_mean(fit, 2.5) == Approx(4.303 * std::sqrt(1.15 / 4)).epsilon(2e-4));
  CHECK(band_of_new_point(fit, 2.5) == Approx(4.303 * std::sqrt(1.15 * 1.25)).epsilon(2e-4));
  // Leverages 0.7 0.3 0.3 0.7: misses -0.7/0.3, 0.6/0.7, 0.9/0.7, -0.8/0.3.
  const double squares =
      std::pow(0.7 / 0.3, 2) + std::pow(0.6 / 0.7, 2) + std::pow(0.9 / 0.7, 2) + std::pow(0.8 / 0.3, 2);
  CHECK(fit.leave_one_out_error == Approx(std::sqrt(squares / 4)));
}

TEST_CASE("leaving each point out by hand gives the leave-one-out error, weights included") {
  const std::vector<double> x{0.1, 0.15, 0.2, 0.3, 0.4}, y{1, 1.8, 2.1, 3.6, 4.1}, w{1, 4, 2, 1, 3};
  const LineFit whole = fitted_line(x, y, w);
  double squares = 0;
  for (std::size_t out = 0; out < x.size(); ++out) {
    std::vector<double> ox, oy, ow;
    for (std::size_t i = 0; i < x.size(); ++i) {
      if (i != out) {
        ox.push_back(x[i]);
        oy.push_back(y[i]);
        ow.push_back(w[i]);
      }
    }
    const LineFit others = fitted_line(ox, oy, ow);
    squares += std::pow(y[out] - others.intercept - others.slope * x[out], 2);
  }
  CHECK(whole.leave_one_out_error == Approx(std::sqrt(squares / 5)).epsilon(1e-9));
}

TEST_CASE("a doubled point counts as one of twice the weight") {
  const LineFit doubled = fitted_line({1, 2, 2, 5}, {1, 3, 3, 4});
  const LineFit weighted = fitted_line({1, 2, 5}, {1, 3, 4}, {1, 2, 1});
  CHECK(weighted.slope == Approx(doubled.slope));
  CHECK(weighted.intercept == Approx(doubled.intercept));
}

TEST_CASE("a point that leaves the line of the others is named and still counts") {
  std::vector<double> x, y;
  for (int i = 0; i < 10; ++i) {
    x.push_back(i);
    y.push_back(2 + 0.5 * i + (i % 2 == 0 ? 0.02 : -0.02));
  }
  y[7] += 1;
  const LineFit fit = fitted_line(x, y);
  CHECK(fit.outliers == std::vector<std::size_t>{7});
  CHECK(fit.residual_deviation > 0.2);
}

TEST_CASE("the interval of a slope holds the true one as often as it says") {
  constexpr int draws = 3000;
  std::mt19937_64 random(7);
  std::normal_distribution<double> noise(0, 0.05);
  const std::vector<double> x{-2.3, -2.0, -1.9, -1.6, -1.2};
  int slope_held = 0, mean_held = 0;
  for (int draw = 0; draw < draws; ++draw) {
    std::vector<double> y;
    for (const double each : x) {
      y.push_back(0.4 + 1.5 * each + noise(random));
    }
    const LineFit fit = fitted_line(x, y);
    slope_held += fit.slope_low <= 1.5 && 1.5 <= fit.slope_high ? 1 : 0;
    mean_held += std::abs(fit.intercept + fit.slope * -1.75 - (0.4 - 1.5 * 1.75)) <= band_of_mean(fit, -1.75) ? 1 : 0;
  }
  const double band = 3 * std::sqrt(0.95 * 0.05 / draws);
  CHECK(slope_held / double(draws) == Approx(0.95).margin(band));
  CHECK(mean_held / double(draws) == Approx(0.95).margin(band));
}

TEST_CASE("two points, one place or a weight of nothing make no line") {
  CHECK_THROWS_AS(fitted_line({1, 2}, {1, 2}), OutOfDomain);
  CHECK_THROWS_AS(fitted_line({1, 1, 1}, {1, 2, 3}), OutOfDomain);
  CHECK_THROWS_AS(fitted_line({1, 2, 3}, {1, 2, 3}, {1, 0, 1}), OutOfDomain);
}
