#include "envelope/polygon.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;

TEST_CASE("the area of a polygon is positive counter-clockwise and negative clockwise") {
  CHECK(signed_area({{0, 0}, {3, 0}, {0, 4}}) == Approx(6));
  CHECK(signed_area({{0, 0}, {0, 4}, {3, 0}}) == Approx(-6));
}

TEST_CASE("the smallest width of a triangle is its smallest height") {
  CHECK(smallest_width({{0, 0}, {3, 0}, {0, 4}}) == Approx(2.4)); // 3 x 4 / 5
  CHECK(smallest_width({{0, 0}, {2, 0}, {1, std::sqrt(3.0)}}) == Approx(std::sqrt(3.0)));
}

TEST_CASE("a notch does not make a section narrower between parallel lines") {
  CHECK(smallest_width({{0, 0}, {4, 0}, {4, 3}, {2, 0.5}, {0, 3}}) == Approx(3));
}

TEST_CASE("an outline that goes once round does not cross itself") {
  CHECK_FALSE(crosses_itself({{0, 0}, {3, 0}, {0, 4}}));
  CHECK_FALSE(crosses_itself({{0, 0}, {4, 0}, {4, 3}, {2, 0.5}, {0, 3}}));
  CHECK_FALSE(crosses_itself({{0, 0}, {1, 0}, {2, 0}, {2, 2}, {0, 2}})); // a corner on a straight edge
}

TEST_CASE("crossed, touching and folded outlines are found") {
  CHECK(crosses_itself({{0, 0}, {2, 2}, {2, 0}, {0, 2}}));                 // a bow tie
  CHECK(crosses_itself({{0, 0}, {4, 0}, {4, 3}, {2, 0}, {0, 3}}));         // a notch down to the far edge
  CHECK(crosses_itself({{0, 0}, {4, 0}, {2, 0}, {2, 3}}));                 // back along its own edge
  CHECK(crosses_itself({{0, 0}, {2, 0}, {2, 0}, {2, 2}, {0, 2}}));         // one corner twice
  CHECK(crosses_itself({{0, 0}, {2, 0}, {1, 1}, {2, 2}, {0, 2}, {1, 1}})); // two rooms joined at a point
  CHECK(crosses_itself({{0, 0}, {0, 0}, {0, 0}}));
}
