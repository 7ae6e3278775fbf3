#include "load_path/bearing.hpp"

#include "load_path/placed.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <memory>
#include <numbers>

using namespace placed;
using sections::ellipse;
using sections::rectangle;

namespace {

constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double pi = std::numbers::pi;

Bearing on_tip(const Section& section, const Window& window, double lateral = 0, double vertical = 0) {
  const Envelope envelope = bar(section);
  return bearing_on({"one", &envelope, lateral, vertical}, 0, window);
}

/// Circle of radius r beyond a line at the distance d from its middle: area, and centroid from the middle.
double segment_area(double r, double d) {
  return r * r * std::acos(d / r) - d * std::sqrt(r * r - d * d);
}
double segment_middle(double r, double d) {
  return 2.0 / 3 * std::pow(r * r - d * d, 1.5) / segment_area(r, d);
}

} // namespace

TEST_CASE("a rectangle cut by a rectangle bears on what both cover") {
  // Tip 84 x 104 mm about (430, 420) mm, so from 368 to 472 mm high; face from 389 mm up and from y = 400 mm to the
  // right: 12 x 83 mm remain, by hand.
  const Bearing bearing = on_tip(rectangle(0.084, 0.104), {-endless, 0.400, 0.389, endless}, 0.430, 0.420);
  CHECK(bearing.section_area == Approx(0.084 * 0.104).epsilon(1e-14));
  CHECK(bearing.area() == Approx(0.012 * 0.083).epsilon(1e-12));
  CHECK(bearing.middle[0] == Approx(0.394).epsilon(1e-12));
  CHECK(bearing.middle[1] == Approx((0.389 + 0.472) / 2).epsilon(1e-12));
  CHECK(bearing.extent.bottom == Approx(0.368).epsilon(1e-12));
  CHECK(bearing.extent.left == Approx(0.472).epsilon(1e-12));
}

TEST_CASE("a circle cut by a line bears on a circular segment") {
  // Closed forms of any handbook of mathematics: r^2 acos(d/r) - d sqrt(r^2 - d^2), centroid (2/3) (r^2 - d^2)^(3/2)
  // / A.
  const double r = 0.060;
  for (const double d : {-0.045, -0.01, 0.0, 0.02, 0.055}) {
    const Bearing bearing = on_tip(ellipse(2 * r, 2 * r), {-endless, endless, 0.3 + d, endless}, 0.1, 0.3);
    // A polygon of 720 sides has lost (2 pi / 720)^2 / 6 = 1.3e-5 of the circle.
    CHECK(bearing.share == Approx(segment_area(r, d) / (pi * r * r)).margin(1.3e-5));
    CHECK(bearing.middle[1] - 0.3 == Approx(segment_middle(r, d)).margin(1e-6));
    CHECK(bearing.middle[0] == Approx(0.1).margin(1e-12));
  }
}

TEST_CASE("an ellipse cut by a strip bears as the circle does, stretched") {
  const double a = 0.080, b = 0.050, d = 0.03;
  const Bearing strip = on_tip(ellipse(2 * a, 2 * b), {-d, d, -endless, endless});
  CHECK(strip.area() == Approx(b / a * (pi * a * a - 2 * segment_area(a, d))).epsilon(5e-5));
  CHECK(strip.middle[0] == Approx(0).margin(1e-12));
}

TEST_CASE("a window over the whole tip covers all of it to the last digit, one that touches it nothing") {
  const Section section =
      GENERATE(rectangle(0.1, 0.12), sections::rounded_rectangle(0.1, 0.12, 0.02), ellipse(0.1, 0.12),
               sections::trapezoid(0.1, 0.06, 0.12), sections::regular_polygon(7, 0.06), sections::angle_section());
  const Bearing whole = on_tip(section, {-1, 1, -1, 1}, 0.2, 0.1);
  CHECK(whole.share == 1);
  CHECK(whole.section_area == properties_of(section).area);
  const Bearing none = on_tip(section, {whole.extent.left, 2, -1, 1}, 0.2, 0.1);
  CHECK(none.share == 0);
}

TEST_CASE("two windows that part a section bear on all of it together") {
  const Section section = GENERATE(sections::rounded_rectangle(0.1, 0.12, 0.02), ellipse(0.1, 0.12),
                                   sections::five_sided(), sections::angle_section());
  for (const double at : {-0.02, 0.03, 0.07}) {
    const Bearing low = on_tip(section, {-1, 1, -1, at}), high = on_tip(section, {-1, 1, at, 1});
    CHECK(low.area() + high.area() == Approx(low.section_area).epsilon(1e-12));
  }
}

TEST_CASE("a section that is not convex is cut into pieces that add up") {
  // Two legs 60 mm wide of an L of 150 mm; above 100 mm only the upright leg is left, 60 x 50 mm.
  const Bearing leg = on_tip(sections::angle_section(), {-1, 1, 0.100, 1});
  CHECK(leg.area() == Approx(0.060 * 0.050).epsilon(1e-12));
  CHECK(leg.middle[0] == Approx(0.030).epsilon(1e-12));
  // Turned to a fork by a cut through both legs: y beyond 100 mm and z beyond 100 mm never at once.
  CHECK(on_tip(sections::angle_section(), {0.1, 1, 0.1, 1}).share == 0);
}

TEST_CASE("a hole in a cut-out section does not bear") {
  // A square tube of 100 mm with a hole of 60 mm; its right half bears on half of 6400 mm^2, at the half's centroid.
  const auto square = [](double half, bool hole) {
    std::vector<std::array<double, 2>> line{{half, -half}, {half, half}, {-half, half}, {-half, -half}};
    if (hole)
      std::reverse(line.begin(), line.end());
    return line;
  };
  Section tube;
  tube.shape = SectionShape::sliced;
  tube.width = tube.height = 0.1;
  tube.figure.loops = std::make_shared<const std::vector<std::vector<std::array<double, 2>>>>(
      std::vector<std::vector<std::array<double, 2>>>{square(0.05, false), square(0.03, true)});
  tube.figure.properties.area = 0.0064;
  tube.figure.properties.perimeter = 0.64;
  const Bearing half = on_tip(tube, {-1, 0, -1, 1});
  CHECK(half.area() == Approx(0.0032).epsilon(1e-12));
  CHECK(half.middle[0] == Approx(-(0.005 * 0.025 - 0.0018 * 0.015) / 0.0032).epsilon(1e-12));
}

TEST_CASE("a turned face is narrower as seen along the crush axis, by its cosine") {
  const double angle = 10 * pi / 180;
  const Window window = window_of(flat(2.0, 0.5, 0.2, 0.3, angle));
  CHECK(window.left - window.right == Approx(2 * std::cos(angle)).epsilon(1e-14));
  CHECK((window.left + window.right) / 2 == Approx(0.3).epsilon(1e-14));
  CHECK(window.top == Approx(0.7));
  CHECK(window_of(wall()).top == endless);
  FaceBlock beside = block("block", 1e6, 0.1, 0.8);
  beside.width = value(1.0);
  CHECK(window_of(flat(2.0, 0.5, 0.2, 0.3), beside).right == Approx(-0.2).epsilon(1e-14));
  beside.lateral = value(0.7);
  CHECK(window_of(flat(2.0, 0.5, 0.2, 0.3), beside).right == Approx(0.2).epsilon(1e-14));
  CHECK(window_of(flat(2.0, 0.5, 0.2, 0.3), beside).top == Approx(0.7).epsilon(1e-14));
  CHECK(window_of(pole(0.254, 0.1)).left == Approx(0.227).epsilon(1e-14));
  CHECK(window_of(pole(0.254)).bottom == -endless);
}

TEST_CASE("the extent and the middle of a round section are exact") {
  const Section section = GENERATE(ellipse(0.1, 0.12), sections::rounded_rectangle(0.1, 0.12, 0.03),
                                   sections::rounded_rectangle(0.1, 0.12, 0.05));
  const Bearing bearing = on_tip(section, {-1, 1, -1, 1}, 0.2, 0.3);
  CHECK(bearing.extent.right == Approx(0.15).epsilon(1e-12));
  CHECK(bearing.extent.left == Approx(0.25).epsilon(1e-12));
  CHECK(bearing.extent.bottom == Approx(0.24).epsilon(1e-12));
  CHECK(bearing.extent.top == Approx(0.36).epsilon(1e-12));
  CHECK(bearing.middle[0] == Approx(0.2).epsilon(1e-12));
  CHECK(bearing.middle[1] == Approx(0.3).epsilon(1e-12));
}
