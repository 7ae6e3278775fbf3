#include "column_check/service_panel.hpp"

#include "column_check/service_samples.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace service_samples;

namespace {

double sinc(double t) {
  return t == 0 ? 1 : std::sin(std::numbers::pi * t) / (std::numbers::pi * t);
}

/// Moment over q a^2 of an endless plate over square supports, c a side, on a grid a apart, their pressure even: the
/// double Fourier series of D ∇⁴w = q - reaction, at (x, y) from the middle of a support.
double moment_on_points(double c, double poisson, double x, double y, int terms = 500) {
  double moment = 0;
  for (int m = -terms; m <= terms; ++m)
    for (int n = -terms; n <= terms; ++n) {
      if (m == 0 && n == 0)
        continue;
      const double kx = 2 * std::numbers::pi * m, ky = 2 * std::numbers::pi * n, kk = kx * kx + ky * ky;
      moment -=
          sinc(m * c) * sinc(n * c) * (kx * kx + poisson * ky * ky) / (kk * kk) * std::cos(kx * x) * std::cos(ky * y);
    }
  return moment;
}

} // namespace

TEST_CASE("the moment of a plate on a grid of supports is that of the handbook's flat slab") {
  // Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, flat slab, Poisson's ratio 0.2; memory: over a
  // support 0.1 and 0.2 of the span wide -0.196 and -0.131 q a^2, in the middle of a panel 0.033.
  CHECK(moment_on_points(0.1, 0.2, 0, 0) == Approx(-0.196).margin(0.0006));
  CHECK(moment_on_points(0.2, 0.2, 0, 0) == Approx(-0.131).margin(0.0006));
  CHECK(moment_on_points(0.1, 0.2, 0.5, 0.5) == Approx(0.033).margin(0.0005));
}

TEST_CASE("a skin on nodes is stressed by 6 M / t^2 of that plate, more than one held along its edges") {
  CHECK(plate_on_points == Approx(-6 * moment_on_points(0.1, 0.3, 0, 0)).epsilon(1e-3));
  CHECK(plate_on_points > 0.3078); // square plate clamped all around, Roark's Formulas for Stress and Strain; memory
  const BeamSection section = box(0, 0.1, 0.12, 0.001);
  CHECK(panel_stress(section, 6e3, "left", 0.012) == Approx(plate_on_points * 6e3 * 144).epsilon(1e-12));
}

TEST_CASE("a skin without a lattice behind it spans its face as a clamped strip, p b^2 / 2 t^2") {
  const BeamSection hollow = box(0, 0.1, 0.12, 0.001, false);
  CHECK(panel_stress(hollow, 6e3, "left", 0.012) == Approx(6e3 * 120 * 120 / 2).epsilon(1e-12));
  CHECK(panel_stress(hollow, 6e3, "upper", 0.012) == Approx(6e3 * 100 * 100 / 2).epsilon(1e-12));
  CHECK(panel_stress(box(0, 0.1, 0.12, 0.001), 6e3, "right", 1) == Approx(6e3 * 120 * 120 / 2).epsilon(1e-12));
  CHECK(panel_stress(bare(0, 0.1, 0.12), 6e3, "left", 0.012) == 0);
}

TEST_CASE("a wall that is not stated follows from the skin's area as that of a box") {
  BeamSection section = box(0, 0.1, 0.12, 0.0013);
  section.skin_thickness = 0;
  CHECK(skin_thickness_of(section) == Approx(0.0013).epsilon(1e-12));
  section.skin_area = 0;
  CHECK(skin_thickness_of(section) == 0);
}
