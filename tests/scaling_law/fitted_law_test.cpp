#include "crushwright/errors.hpp"
#include "scaling_law/fitted_law.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;

namespace {

std::vector<LawPoint> points_of(double coefficient, double exponent, const std::vector<double>& factors) {
  const std::vector<double> densities = {0.05, 0.08, 0.12, 0.18, 0.30};
  std::vector<LawPoint> points;
  for (std::size_t i = 0; i < densities.size(); ++i)
    points.push_back({densities[i], coefficient * std::pow(densities[i], exponent) * factors[i]});
  return points;
}

} // namespace

TEST_CASE("points of a power law give back its coefficient and exponent") {
  const PowerLawFit fit = fitted_law(points_of(0.31, 1.65, {1, 1, 1, 1, 1}));
  CHECK(fit.coefficient == Approx(0.31).epsilon(1e-12));
  CHECK(fit.exponent == Approx(1.65).epsilon(1e-12));
  CHECK(fit.largest_residual < 1e-12);
  CHECK(fit.coefficient_of_variation < 1e-12);
  CHECK(fit.range == Range{0.05, 0.30});
}

TEST_CASE("a fit does not depend on the order of its points") {
  std::vector<LawPoint> points = points_of(0.31, 1.65, {1.02, 0.97, 1.01, 1.03, 0.98});
  const PowerLawFit rising = fitted_law(points);
  std::swap(points.front(), points.back());
  const PowerLawFit mixed = fitted_law(points);
  CHECK(mixed.coefficient == Approx(rising.coefficient).epsilon(1e-12));
  CHECK(mixed.range == rising.range);
}

TEST_CASE("no other power law lies closer to noisy points in the logarithm") {
  const std::vector<LawPoint> points = points_of(0.31, 1.65, {1.05, 0.93, 1.02, 1.04, 0.97});
  const PowerLawFit fit = fitted_law(points);
  const auto squares = [&](double coefficient, double exponent) {
    double sum = 0;
    for (const LawPoint& point : points)
      sum += std::pow(std::log(point.value / (coefficient * std::pow(point.relative_density, exponent))), 2);
    return sum;
  };
  const double least = squares(fit.coefficient, fit.exponent);
  for (const double step : {-1e-3, 1e-3}) {
    CHECK(squares(fit.coefficient * (1 + step), fit.exponent) > least);
    CHECK(squares(fit.coefficient, fit.exponent + step) > least);
  }
  // Five points, two of them spent on C and m.
  CHECK(fit.coefficient_of_variation == Approx(std::sqrt(least / 3)).epsilon(1e-12));
  CHECK(fit.largest_residual > fit.coefficient_of_variation);
  double largest = 0;
  for (const LawPoint& point : points)
    largest = std::max(largest,
                       std::abs(fit.coefficient * std::pow(point.relative_density, fit.exponent) / point.value - 1));
  CHECK(fit.largest_residual == Approx(largest).epsilon(1e-9));
}

TEST_CASE("the largest residual is that of the worst point, relative to the point") {
  // A constant through 1, 1, 8 is 2: twice the small ones, a quarter of the large one (hand calculation).
  const PowerLawFit fit = fitted_constant({{0.1, 1}, {0.2, 1}, {0.3, 8}});
  CHECK(fit.coefficient == Approx(2).epsilon(1e-12));
  CHECK(fit.exponent == 0);
  CHECK(fit.largest_residual == Approx(1).epsilon(1e-12));
  CHECK(fit.coefficient_of_variation == Approx(std::sqrt(6 * std::pow(std::log(2.0), 2) / 2)).epsilon(1e-12));
}

TEST_CASE("two points prove no power law") {
  CHECK_THROWS_MATCHES(fitted_law({{0.1, 1}, {0.2, 2}}), OutOfDomain,
                       Catch::Matchers::Message("a power law is fitted to at least 3 points, and there are 2"));
}

TEST_CASE("points that have no logarithm or no range are refused") {
  CHECK_THROWS_MATCHES(
      fitted_law({{0.1, 1}, {0.2, 0}, {0.3, 1}}), OutOfDomain,
      Catch::Matchers::Message("a point of a law at relative density 0.2 has the value 0; it must be above 0 and "
                               "finite"));
  CHECK_THROWS_MATCHES(
      fitted_law({{0.1, 1}, {1.2, 2}, {0.3, 1}}), OutOfDomain,
      Catch::Matchers::Message("a point of a law has relative density 1.2; it must lie between 0 and 1"));
  CHECK_THROWS_MATCHES(
      fitted_law({{0.1, 1}, {0.1, 2}, {0.1, 1}}), OutOfDomain,
      Catch::Matchers::Message("the points of a law all have relative density 0.1; an exponent needs a range"));
}
