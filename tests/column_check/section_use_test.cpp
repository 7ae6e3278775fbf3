// Plastic interaction of force and bending: n^2 + m = 1 of a rectangle, m = cos(pi n / 2) of a thin tube, as in Chen
// and Atsuta, Theory of Beam-Columns (memory); the thin square box derived.
#include "column_check/section_use.hpp"

#include "column_check/service_samples.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace service_samples;

namespace {

BeamSection with_moduli(BeamSection section, double width, double height) {
  section.lattice_plastic_modulus = {height * width * width / 4, width * height * height / 4};
  return section;
}

const BeamSection core = with_moduli(bare(0.1, 0.08, 0.1), 0.08, 0.1);
const PlasticSection strength = plastic_section(core);

SectionUse under(double n, double m_y, double m_z = 0, double v = 0) {
  return section_use(
      strength,
      {n * strength.axial, {m_y * strength.moment[0], m_z * strength.moment[1]}, {v * strength.shear[0], 0}}, 0.1);
}

} // namespace

TEST_CASE("a rectangle is plastic under its own crush force, and under stress times b h^2 / 4") {
  const PlasticSection plastic = plastic_section(core);
  CHECK(plastic.axial == Approx(6e6 * 0.08 * 0.1));
  CHECK(plastic.moment[about_vertical] == Approx(6e6 * 0.1 * 0.08 * 0.08 / 4));
  CHECK(plastic.moment[about_lateral] == Approx(6e6 * 0.08 * 0.1 * 0.1 / 4));
}

TEST_CASE("the use is 1 at force alone, at bending alone and at shear alone") {
  CHECK(under(1, 0).use == Approx(1));
  CHECK(under(0, 1).use == Approx(1));
  CHECK(under(0, 0, 1).use == Approx(1));
  CHECK(under(0, 0, 0, 1).use == Approx(1));
  CHECK(under(0, 0).use == 0);
}

TEST_CASE("a section on its exact limit is never called safe, and is called at most a quarter too hard") {
  double rectangle = 0, tube = 0, box = 0;
  for (int i = 0; i <= 100; ++i) {
    const double n = i / 100.0;
    const double of_rectangle = under(n, 1 - n * n).use;
    const double of_tube = under(n, std::cos(std::numbers::pi * n / 2)).use;
    const double of_box = under(n, n <= 0.5 ? 1 - 4 * n * n / 3 : 4 * (1 - n) / 3).use;
    for (const double use : {of_rectangle, of_tube, of_box})
      CHECK(use >= 1 - 1e-12);
    rectangle = std::max(rectangle, of_rectangle);
    tube = std::max(tube, of_tube);
    box = std::max(box, of_box);
  }
  CHECK(rectangle == Approx(1.25));
  CHECK(tube == Approx(1.211).epsilon(1e-3));
  CHECK(box == Approx(1.1875).epsilon(1e-3));
}

TEST_CASE("shear takes strength away as von Mises' rule says: what is left is the root of 1 - v^2") {
  const double v = 0.6;
  CHECK(under(0.3, std::sqrt(1 - v * v) - 0.3, 0, v).use == Approx(1));
}

TEST_CASE("a section without strength is refused") {
  CHECK_THROWS_AS(plastic_section(BeamSection{}), OutOfDomain);
}
