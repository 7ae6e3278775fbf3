// Closed forms of plane areas as in any handbook of strength of materials: Roark's Formulas for Stress and Strain,
// properties of sections (memory); the others derived.
#include "crushwright/column_check.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace crushwright;

namespace {

constexpr double pi = std::numbers::pi;

Section shaped(SectionShape shape, double width, double height, double radius = 0) {
  Section section;
  section.shape = shape;
  section.width = width;
  section.height = height;
  section.corner_radius = radius;
  return section;
}

double tube_moment(double outer, double inner) {
  return pi / 4 * (std::pow(outer, 4) - std::pow(inner, 4));
}

} // namespace

TEST_CASE("a round tube and its core have the second moments and plastic moduli of circles") {
  const double r = 0.05, t = 0.004, i = r - t;
  for (const SectionShape shape : {SectionShape::ellipse, SectionShape::rounded_rectangle}) {
    const BeamSection beam = beam_section(shaped(shape, 2 * r, 2 * r, r), t);
    CHECK(beam.lattice_area == Approx(pi * i * i).epsilon(1e-6));
    CHECK(beam.skin_area == Approx(pi * (r * r - i * i)).epsilon(1e-6));
    for (const Bending axis : {about_vertical, about_lateral}) {
      CHECK(beam.lattice_second_moment[axis] == Approx(tube_moment(i, 0)).epsilon(1e-5));
      CHECK(beam.skin_second_moment[axis] == Approx(tube_moment(r, i)).epsilon(1e-4));
      CHECK(beam.lattice_plastic_modulus[axis] == Approx(4 * i * i * i / 3).epsilon(1e-3));
      CHECK(beam.skin_plastic_modulus[axis] == Approx(4 * (r * r * r - i * i * i) / 3).epsilon(1e-3));
      CHECK(beam.half_depth[axis] == Approx(r).epsilon(1e-3));
    }
  }
}

TEST_CASE("a box and its core have the second moments and plastic moduli of rectangles") {
  const double w = 0.12, h = 0.08, t = 0.003, wi = w - 2 * t, hi = h - 2 * t;
  const BeamSection beam = beam_section(shaped(SectionShape::rectangle, w, h), t);
  CHECK(beam.lattice_second_moment[about_vertical] == Approx(hi * wi * wi * wi / 12));
  CHECK(beam.lattice_second_moment[about_lateral] == Approx(wi * hi * hi * hi / 12));
  CHECK(beam.skin_second_moment[about_vertical] == Approx((h * w * w * w - hi * wi * wi * wi) / 12));
  CHECK(beam.lattice_plastic_modulus[about_vertical] == Approx(hi * wi * wi / 4));
  CHECK(beam.skin_plastic_modulus[about_lateral] == Approx((w * h * h - wi * hi * hi) / 4));
  CHECK(beam.half_depth[about_vertical] == Approx(w / 2));
}

TEST_CASE("the area inside a rounded rectangle is bent as the rectangle less its corners") {
  const double w = 0.1, h = 0.07, r = 0.02;
  const BeamSection beam = beam_section(shaped(SectionShape::rounded_rectangle, w, h, r), 0);
  // A corner: square less quarter circle; area, and distance of its middle from the corner's edges (derived).
  const double area = (1 - pi / 4) * r * r;
  const double square = r * r * r / 2, quarter = pi / 4 * r * r * (r - 4 * r / (3 * pi));
  const double off = (square - quarter) / area;
  const double quarter_own = pi / 16 * std::pow(r, 4) - pi / 4 * r * r * std::pow(4 * r / (3 * pi), 2);
  const double about_edge = std::pow(r, 4) / 3 - (quarter_own + pi / 4 * r * r * std::pow(r - 4 * r / (3 * pi), 2));
  const double own = about_edge - area * off * off;
  const double expected = h * w * w * w / 12 - 4 * (own + area * std::pow(w / 2 - off, 2));
  CHECK(beam.lattice_second_moment[about_vertical] == Approx(expected).epsilon(1e-4));
  CHECK(beam.lattice_plastic_modulus[about_vertical] ==
        Approx(h * w * w / 4 - 4 * area * (w / 2 - off)).epsilon(1e-4));
  CHECK(beam.skin_area == Approx(0).margin(1e-12));
}

TEST_CASE("an ellipse under a thin skin has the ring's second moment around it") {
  const double a = 0.06, b = 0.04, t = 1e-3;
  const BeamSection beam = beam_section(shaped(SectionShape::ellipse, 2 * a, 2 * b), t);
  // Line integral of t y^2 over the mid-line, the outline moved inwards by t/2, by the trapezoidal rule (derived).
  double ring = 0;
  constexpr int count = 20000;
  for (int i = 0; i < count; ++i) {
    const double u = 2 * pi * (i + 0.5) / count;
    const double speed = std::hypot(a * std::sin(u), b * std::cos(u));
    const double y = a * std::cos(u) - t / 2 * b * std::cos(u) / speed;
    const double curvature = a * b / std::pow(speed, 3);
    ring += y * y * t * speed * (1 - curvature * t / 2) * 2 * pi / count;
  }
  CHECK(beam.skin_second_moment[about_vertical] == Approx(ring).epsilon(3e-3));
  CHECK(beam.lattice_second_moment[about_vertical] + beam.skin_second_moment[about_vertical] ==
        Approx(pi / 4 * a * a * a * b).epsilon(1e-5));
}

TEST_CASE("a trapezoid bends about its own centroid, wherever the section lies") {
  Section section = shaped(SectionShape::trapezoid, 0.12, 0.06);
  section.upper_width = 0.08;
  section.centre = {0.02, -0.03};
  const BeamSection beam = beam_section(section, 0);
  const double a = 0.08, b = 0.12, h = 0.06; // h^3 (a^2 + 4 a b + b^2) / 36 (a + b)
  CHECK(beam.lattice_second_moment[about_lateral] ==
        Approx(h * h * h * (a * a + 4 * a * b + b * b) / (36 * (a + b))).epsilon(1e-9));
  CHECK(beam.lattice_second_moment[about_vertical] == Approx(h * (a + b) * (a * a + b * b) / 48).epsilon(1e-9));
  CHECK(beam.centroid[0] == Approx(0.02));
}

TEST_CASE("a skin thicker than half the section leaves no lattice") {
  const BeamSection beam = beam_section(shaped(SectionShape::rectangle, 0.1, 0.02), 0.011);
  CHECK(beam.lattice_area == 0);
  CHECK(beam.skin_area == Approx(0.002));
  CHECK(beam.lattice_second_moment[about_vertical] == 0);
  CHECK_THROWS_AS(beam_section(shaped(SectionShape::rectangle, 0.1, 0.02), -1e-3), OutOfDomain);
}
