#include "crushwright/envelope.hpp"
#include "crushwright/errors.hpp"
#include "envelope/sections.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

using namespace crushwright;
using namespace sections;

namespace {

constexpr double pi = std::numbers::pi;

std::vector<Section> one_of_each() {
  return {rectangle(0.090, 0.110),
          rounded_rectangle(0.090, 0.110, 0.020),
          rounded_rectangle(0.090, 0.140, 0.045),
          trapezoid(0.140, 0.080, 0.110),
          trapezoid(0.060, 0.150, 0.080),
          ellipse(0.150, 0.090),
          ellipse(0.080, 0.200),
          regular_polygon(6, 0.070),
          regular_polygon(7, 0.060),
          five_sided(),
          angle_section()};
}

} // namespace

TEST_CASE("area and perimeter of every shape are those of its drawn outline") {
  for (const Section& section : one_of_each()) {
    CAPTURE(static_cast<int>(section.shape), section.width, section.height);
    const Points line = outline(section, 8000);
    const SectionProperties properties = properties_of(section);
    // A chord polygon of n points is short by about (2 pi / n)^2 / 6 in area: 1e-7.
    CHECK(properties.area == Approx(shoelace_area(line)).epsilon(3e-7));
    CHECK(properties.perimeter == Approx(length_around(line)).epsilon(3e-7));
  }
}

TEST_CASE("a section of 90 by 110 mm with corners of 20 mm has the area and perimeter worked by hand") {
  const SectionProperties properties = properties_of(rounded_rectangle(0.090, 0.110, 0.020));
  CHECK(properties.area == Approx(0.0099 - 0.0004 * (4 - pi)).epsilon(1e-14));
  CHECK(properties.perimeter == Approx(0.400 - 0.160 + 0.040 * pi).epsilon(1e-14));
}

TEST_CASE("an ellipse of equal axes is a circle") {
  const SectionProperties circle = properties_of(ellipse(0.120, 0.120));
  CHECK(circle.area == Approx(pi * 0.0036).epsilon(1e-14));
  CHECK(circle.perimeter == Approx(pi * 0.120).epsilon(1e-14));
  CHECK(circle.smallest_width == Approx(0.120).epsilon(1e-14));
  CHECK(circle.corner_count == 0);
}

TEST_CASE("a square whose corner radius is half its side is a circle") {
  const SectionProperties rounded = properties_of(rounded_rectangle(0.120, 0.120, 0.060));
  const SectionProperties circle = properties_of(ellipse(0.120, 0.120));
  CHECK(rounded.area == Approx(circle.area).epsilon(1e-13));
  CHECK(rounded.perimeter == Approx(circle.perimeter).epsilon(1e-13));
  CHECK(rounded.corner_count == 0);
  CHECK(area_inside(rounded, 0.007) == Approx(area_inside(circle, 0.007)).epsilon(1e-13));
}

TEST_CASE("a rectangle whose corner radius is half its smaller side is a stadium") {
  const SectionProperties stadium = properties_of(rounded_rectangle(0.200, 0.080, 0.040));
  CHECK(stadium.area == Approx(0.120 * 0.080 + pi * 0.0016).epsilon(1e-14));
  CHECK(stadium.perimeter == Approx(2 * 0.120 + pi * 0.080).epsilon(1e-14));
  CHECK(stadium.corner_count == 0);
}

TEST_CASE("the perimeter of an ellipse agrees with quadrature and with Ramanujan's second approximation") {
  const double aspect = GENERATE(1.0, 0.9, 0.5, 0.3);
  const double a = 0.1;
  const double b = a * aspect;
  // The midpoint rule is exact to rounding for a smooth periodic speed.
  constexpr int intervals = 4000;
  double around = 0;
  for (int i = 0; i < intervals; ++i) {
    const double angle = 2 * pi * (i + 0.5) / intervals;
    around += std::hypot(a * std::sin(angle), b * std::cos(angle)) * 2 * pi / intervals;
  }
  const double perimeter = properties_of(ellipse(2 * b, 2 * a)).perimeter;
  CAPTURE(aspect);
  CHECK(perimeter == Approx(around).epsilon(1e-12));
  // S. Ramanujan, 1914; from memory. Its error is about (3 / 2^17) h^5 relative, 2e-6 at an aspect of 0.3.
  const double h = std::pow((a - b) / (a + b), 2);
  const double ramanujan = pi * (a + b) * (1 + 3 * h / (10 + std::sqrt(4 - 3 * h)));
  CHECK(perimeter == Approx(ramanujan).epsilon(3e-6));
}

TEST_CASE("the folding corners are those that turn by more than 20 degrees") {
  CHECK(properties_of(rectangle(0.1, 0.1)).corner_count == 4);
  CHECK(properties_of(rounded_rectangle(0.1, 0.1, 0.02)).corner_count == 4);
  CHECK(properties_of(trapezoid(0.1, 0.06, 0.1)).corner_count == 4);
  CHECK(properties_of(regular_polygon(6, 0.05)).corner_count == 6);
  CHECK(properties_of(regular_polygon(17, 0.05)).corner_count == 17); // 21.2 degrees each
  CHECK(properties_of(regular_polygon(19, 0.05)).corner_count == 0);  // 18.9 degrees each
  CHECK(properties_of(angle_section()).corner_count == 6);
  CHECK(properties_of(polygon({{0, 0}, {0.05, 0}, {0.1, 0}, {0.1, 0.1}, {0, 0.1}})).corner_count == 4);
}

TEST_CASE("a trapezoid and the polygon of its corners are one section") {
  const auto [lower, upper, height] = GENERATE(std::array{0.14, 0.08, 0.11}, std::array{0.06, 0.15, 0.08},
                                               std::array{0.10, 0.10, 0.05}, std::array{0.30, 0.02, 0.03});
  const Section section = trapezoid(lower, upper, height);
  const SectionProperties p = properties_of(section);
  const SectionProperties q = properties_of(polygon(outline(section)));
  CHECK(p.area == Approx(q.area).epsilon(1e-13));
  CHECK(p.perimeter == Approx(q.perimeter).epsilon(1e-13));
  CHECK(p.offset_term == Approx(q.offset_term).epsilon(1e-12));
  CHECK(p.smallest_width == Approx(q.smallest_width).epsilon(1e-13));
  CHECK(p.corner_count == q.corner_count);
}

TEST_CASE("the smallest width is that of a gauge turned round the section") {
  for (const Section& section : one_of_each()) {
    CAPTURE(static_cast<int>(section.shape), section.width, section.height);
    const double turned = width_by_turning(outline(section, 4000), 3600);
    // A gauge 0.025 degrees off the best direction reads long by up to that times the section's extent.
    CHECK(properties_of(section).smallest_width == Approx(turned).epsilon(1e-3));
    CHECK(properties_of(section).smallest_width <= turned * (1 + 1e-6));
  }
}

TEST_CASE("the area inside a skin is what cutting along the moved edges leaves") {
  for (const Section& section : one_of_each()) {
    if (section.corners == angle_section().corners)
      continue; // not convex; below
    const SectionProperties properties = properties_of(section);
    for (const double thickness : {0.0005, 0.002, 0.008}) {
      CAPTURE(static_cast<int>(section.shape), section.width, section.height, thickness);
      const Points inside = cut_by_inset_edges(outline(section, 2000), thickness);
      CHECK(area_inside(properties, thickness) == Approx(shoelace_area(inside)).epsilon(5e-6));
    }
  }
}

TEST_CASE("past its corner radius a rounded rectangle is offset with sharp corners") {
  const SectionProperties properties = properties_of(rounded_rectangle(0.090, 0.110, 0.004));
  CHECK(area_inside(properties, 0.004) == Approx(0.082 * 0.102).epsilon(1e-13));
  CHECK(area_inside(properties, 0.010) == Approx(0.070 * 0.090).epsilon(1e-13));
  CHECK(area_inside(properties, 0.040) == Approx(0.010 * 0.030).epsilon(1e-12));
}

TEST_CASE("a skin in an angle section is mitred at the corner that turns inwards") {
  // An L of legs 60 mm keeps an L whose legs are 2 t thinner and whose square is 2 t smaller.
  const SectionProperties properties = properties_of(angle_section());
  const double t = 0.005;
  const double outer = 0.150 - 2 * t;
  const double leg = 0.060 - 2 * t;
  CHECK(properties.area == Approx(0.150 * 0.060 + 0.090 * 0.060).epsilon(1e-13));
  CHECK(properties.offset_term == Approx(4).epsilon(1e-13));
  CHECK(area_inside(properties, t) == Approx(outer * leg + (outer - leg) * leg).epsilon(1e-12));
}

TEST_CASE("once an edge has gone the area inside a convex polygon is not overstated") {
  // One short edge, 10 mm, which is gone at less than 10 mm of thickness.
  const Section section = polygon({{0, 0}, {0.100, 0}, {0.100, 0.090}, {0.095, 0.098}, {0, 0.100}});
  const SectionProperties properties = properties_of(section);
  for (const double thickness : {0.015, 0.025, 0.035, 0.045}) {
    CAPTURE(thickness);
    const double left = shoelace_area(cut_by_inset_edges(section.corners, thickness));
    CHECK(area_inside(properties, thickness) < left * (1 - 1e-6));
    CHECK(area_inside(properties, thickness) >= 0);
  }
}

TEST_CASE("nothing is left inside a skin of half the smallest width or more") {
  for (const Section& section : one_of_each()) {
    CAPTURE(static_cast<int>(section.shape), section.width, section.height);
    const SectionProperties properties = properties_of(section);
    double before = properties.area;
    CHECK(area_inside(properties, 0) == Approx(properties.area).epsilon(1e-15));
    for (int i = 1; i <= 100; ++i) {
      const double left = area_inside(properties, properties.smallest_width * i / 100);
      CHECK(left >= 0);
      CHECK(left <= before);
      before = left;
    }
    CHECK(area_inside(properties, properties.smallest_width / 2) == 0);
    CHECK(area_inside(properties, 10) == 0);
  }
}

TEST_CASE("a mirrored section has the same properties") {
  for (const Section& section : one_of_each()) {
    Section mirrored = section;
    mirrored.centre[0] = -section.centre[0] - 0.3;
    for (auto& corner : mirrored.corners)
      corner[0] = -corner[0];
    std::reverse(mirrored.corners.begin(), mirrored.corners.end()); // mirroring turns the order round
    const SectionProperties p = properties_of(section);
    const SectionProperties q = properties_of(mirrored);
    CHECK(p.area == Approx(q.area).epsilon(1e-13));
    CHECK(p.perimeter == Approx(q.perimeter).epsilon(1e-13));
    CHECK(p.offset_term == Approx(q.offset_term).epsilon(1e-12));
    CHECK(p.smallest_width == Approx(q.smallest_width).epsilon(1e-12));
    CHECK(p.corner_count == q.corner_count);
  }
}

TEST_CASE("the outline goes counter-clockwise about its centre") {
  for (Section section : one_of_each()) {
    const Points about_origin = outline(section);
    section.centre = {0.25, -0.04};
    const Points shifted = outline(section);
    REQUIRE(shifted.size() == about_origin.size());
    CHECK(shoelace_area(shifted) > 0);
    for (std::size_t i = 0; i < shifted.size(); ++i) {
      CHECK(shifted[i][0] - about_origin[i][0] == Approx(0.25).epsilon(1e-12));
      CHECK(shifted[i][1] - about_origin[i][1] == Approx(-0.04).epsilon(1e-12));
    }
  }
}

TEST_CASE("the outline of a stadium has no doubled points") {
  const Points line = outline(rounded_rectangle(0.2, 0.08, 0.04), 72);
  for (std::size_t i = 0; i < line.size(); ++i) {
    const auto& p = line[i];
    const auto& q = line[(i + 1) % line.size()];
    CHECK(std::hypot(p[0] - q[0], p[1] - q[1]) > 1e-4);
  }
}

TEST_CASE("sections that cannot be are refused with the value") {
  CHECK_THROWS_MATCHES(properties_of(rectangle(-0.1, 0.1)), OutOfDomain,
                       Catch::Matchers::Message("the width of a section must be positive, but is -0.1 m"));
  CHECK_THROWS_MATCHES(
      properties_of(rounded_rectangle(0.09, 0.11, 0.05)), OutOfDomain,
      Catch::Matchers::Message("the corner radius of a section must lie between 0 and half its smaller "
                               "side, 0.045 m, but is 0.05 m"));
  CHECK_THROWS_AS(properties_of(trapezoid(0.1, 0, 0.1)), OutOfDomain);
  CHECK_THROWS_AS(properties_of(ellipse(0.1, std::nan(""))), OutOfDomain);
  CHECK_THROWS_AS(properties_of(polygon({{0, 0}, {1, 0}})), OutOfDomain);
  CHECK_THROWS_AS(properties_of(polygon({{0, 0}, {0, 1}, {1, 0}})), OutOfDomain); // clockwise
  CHECK_THROWS_AS(outline(rectangle(0, 1)), OutOfDomain);
  CHECK_THROWS_AS(area_inside(properties_of(rectangle(1, 1)), -0.001), OutOfDomain);
}
