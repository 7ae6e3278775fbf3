// Cantilever roots: 1.875104 of an even one, as in Blevins, Formulas for Natural Frequency and Mode Shape (memory);
// with a tip mass the root of 1 + cos cosh + mu b (cos sinh - sin cosh) = 0 (derived from the beam equation); the
// wedge 5.315 sqrt(E I / rho A L^4) at the root, Kirchhoff's (memory).
#include "column_check/service_beam.hpp"
#include "column_check/service_samples.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace service_samples;

namespace {

constexpr double length = 0.6, width = 0.04, height = 0.05;

BeamColumn even(std::size_t layers = 64, double shear_modulus = 1e15) {
  return column_of(length, layers, [&](double station) {
    BeamSection section = bare(station, width, height);
    section.lattice.shear_modulus = shear_modulus;
    return section;
  });
}

double of_root(const BeamSection& section, double root) {
  return root * root / (2 * std::numbers::pi) *
         std::sqrt(section.elastic_bending(about_vertical) /
                   (section.lattice.density * section.lattice_area * std::pow(length, 4)));
}

double root_with_tip_mass(double mu) {
  double low = 0.1, high = 1.8751041;
  for (int i = 0; i < 60; ++i) {
    const double b = 0.5 * (low + high);
    const double value =
        1 + std::cos(b) * std::cosh(b) + mu * b * (std::cos(b) * std::sinh(b) - std::sin(b) * std::cosh(b));
    (value > 0 ? low : high) = b;
  }
  return low;
}

} // namespace

TEST_CASE("a slender even cantilever sways about its weaker axis at the handbook's frequency") {
  const BeamColumn column = even();
  // Rotary inertia takes about (I / A L^2) of it, 0.1 %.
  CHECK(bending_frequency(column) == Approx(of_root(column.sections[0], 1.875104)).epsilon(2.5e-3));
}

TEST_CASE("a mass on the tip lowers the frequency to the root of the beam equation") {
  for (const double mu : {0.2, 1.0, 5.0}) {
    BeamColumn column = even();
    column.tip_mass = mu * 400 * width * height * length;
    CHECK(bending_frequency(column) == Approx(of_root(column.sections[0], root_with_tip_mass(mu))).epsilon(2.5e-3));
  }
}

TEST_CASE("shear softens the sway by Timoshenko's correction") {
  // For a soft shear: 1/f^2 = 1/f_bending^2 + 1/f_shear^2 (Dunkerley, a lower bound), f_shear of a quarter wave.
  const BeamColumn column = even(64, 4e7);
  const double bends = bending_frequency(even());
  const double shears =
      std::sqrt(shear_stiffness(column.sections[0], about_vertical) / (400 * width * height)) / (4 * length);
  const double dunkerley = 1 / std::sqrt(1 / (bends * bends) + 1 / (shears * shears));
  const double found = bending_frequency(column);
  CHECK(found < bends);
  CHECK(found >= dunkerley * (1 - 1e-3));
  CHECK(found == Approx(dunkerley).epsilon(0.03));
}

TEST_CASE("a wedge sways at Kirchhoff's frequency") {
  const BeamColumn column = column_of(length, 128, [](double station) {
    BeamSection section = bare(station, width * station / length, 1.0); // weak sideways
    section.lattice.shear_modulus = 1e15;
    return section;
  });
  const BeamSection& root = column.sections.back();
  CHECK(bending_frequency(column) ==
        Approx(5.315 / (2 * std::numbers::pi) *
               std::sqrt(root.elastic_bending(about_vertical) /
                         (root.lattice.density * root.lattice_area * std::pow(length, 4))))
            .epsilon(5e-3));
}

TEST_CASE("the frequency converges with the square of the layers") {
  const double fine = bending_frequency(even(256));
  const double at_8 = bending_frequency(even(8)) - fine, at_16 = bending_frequency(even(16)) - fine;
  CHECK(at_8 / at_16 == Approx(4).epsilon(0.1));
}
