#include "coupon/group_scatter.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace crushwright;

TEST_CASE("the Student factor for any freedom agrees with the printed table") {
  // Two-sided 95 %, any table of Student's distribution.
  CHECK(student_factor(2) == Approx(4.303).epsilon(0.01));
  CHECK(student_factor(3) == Approx(3.182).epsilon(2e-3));
  CHECK(student_factor(4) == Approx(2.776).epsilon(1e-3));
  CHECK(student_factor(10) == Approx(2.228).epsilon(3e-4));
  CHECK(student_factor(30) == Approx(2.042).epsilon(3e-4));
  CHECK(student_factor(1e9) == Approx(1.95996).epsilon(1e-5));
}

TEST_CASE("between two groups the slope is the difference of their means, with Welch's interval") {
  // Welch (1947), Satterthwaite (1946), memory: variance s1^2/n1 + s2^2/n2, freedom (sum)^2 / sum of squares over n
  // - 1.
  GroupedPoints points;
  points.x = {0, 0, 0, 1, 1, 1, 1};
  points.y = {1, 2, 3, 10, 14, 18, 22};
  points.group = {0, 0, 0, 1, 1, 1, 1};
  points.groups = 2;
  const ScatterLine line = scatter_line(points);
  CHECK(line.weighted);
  CHECK(line.fit.intercept == Approx(2).epsilon(1e-12));
  CHECK(line.fit.slope == Approx(14).epsilon(1e-12));
  const double a = 1.0 / 3;
  const double b = (36.0 + 4 + 4 + 36) / 3 / 4;
  const double freedom = (a + b) * (a + b) / (a * a / 2 + b * b / 3);
  CHECK(line.fit.slope_high - line.fit.slope == Approx(student_factor(freedom) * std::sqrt(a + b)).epsilon(1e-9));
  CHECK(line.fit.intercept_high - line.fit.intercept == Approx(student_factor(2) * std::sqrt(a)).epsilon(1e-9));
}

TEST_CASE("a density that scatters more says less about the line") {
  GroupedPoints points;
  points.groups = 3;
  for (std::size_t g = 0; g < 3; ++g) {
    const double spread = g == 2 ? 1.0 : 0.01;
    for (const double off : {-1.0, 0.0, 1.0}) {
      points.x.push_back(static_cast<double>(g));
      points.y.push_back(static_cast<double>(g) + (g == 2 ? 0.6 : 0) + spread * off);
      points.group.push_back(g);
    }
  }
  const ScatterLine line = scatter_line(points);
  const LineFit equal = fitted_line(points.x, points.y);
  CHECK(line.weighted);
  CHECK(equal.slope == Approx(1.3).epsilon(1e-9));
  CHECK(line.fit.slope < equal.slope - 0.01);
  CHECK(line.fit.slope > 1);
}

TEST_CASE("with fewer than three points in a group all weigh alike and the residuals make the interval") {
  GroupedPoints points{{1, 1, 1, 2, 2, 3}, {1.0, 1.1, 0.9, 2.2, 1.9, 3.1}, {0, 0, 0, 1, 1, 2}, 3};
  const ScatterLine line = scatter_line(points);
  const LineFit equal = fitted_line(points.x, points.y);
  CHECK_FALSE(line.weighted);
  CHECK(line.fit.slope_low == equal.slope_low);
  CHECK(line.fit.intercept_high == equal.intercept_high);
}
