#include "envelope/even_outline.hpp"
#include "envelope/polygon.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace crushwright;

TEST_CASE("points of an even outline lie at equal distances, beginning to the left of the centroid") {
  Section square;
  square.width = square.height = 0.1;
  square.centre = {0.02, -0.01};
  const auto points = even_outline(square, 40);
  REQUIRE(points.size() == 40);
  CHECK(points[0][0] == Approx(0.07));
  CHECK(points[0][1] == Approx(-0.01).margin(1e-12));
  for (std::size_t k = 0; k < 40; ++k)
    CHECK(std::hypot(points[(k + 1) % 40][0] - points[k][0], points[(k + 1) % 40][1] - points[k][1]) ==
          Approx(0.01).epsilon(1e-9));
  // Ten points a side, so no corner is cut off.
  CHECK(signed_area(points) == Approx(0.01).epsilon(1e-9));
}

TEST_CASE(
    "an even outline keeps a smooth section's area to its faceting, and does not care how the section was cut") {
  Section ellipse;
  ellipse.shape = SectionShape::ellipse;
  ellipse.width = 0.12;
  ellipse.height = 0.08;
  const double area = std::numbers::pi / 4 * 0.12 * 0.08;
  CHECK(signed_area(even_outline(ellipse, 96)) == Approx(area).epsilon(2e-3));
  Section coarse = ellipse, fine = ellipse;
  coarse.shape = fine.shape = SectionShape::polygon;
  coarse.corners = outline(ellipse, 60);
  fine.corners = outline(ellipse, 150);
  const auto one = even_outline(coarse, 48), other = even_outline(fine, 48);
  for (std::size_t k = 0; k < one.size(); ++k) {
    CHECK(one[k][0] == Approx(other[k][0]).margin(3e-4));
    CHECK(one[k][1] == Approx(other[k][1]).margin(3e-4));
  }
}
