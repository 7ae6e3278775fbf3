// Euler's pi^2 E I / 4 L^2 and Engesser's 1/F = 1/F_E + 1/k G A, as in Timoshenko and Gere, Theory of Elastic
// Stability (memory); the tapered column derived below.
#include "column_check/stability.hpp"

#include "column_check/service_beam.hpp"
#include "column_check/service_samples.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace service_samples;

namespace {

constexpr double length = 0.6;

BeamColumn even(std::size_t layers, double shear_modulus) {
  return column_of(length, layers, [&](double station) {
    BeamSection section = bare(station, 0.08, 0.1);
    section.lattice.shear_modulus = shear_modulus;
    return section;
  });
}

double buckles(const BeamColumn& column, std::size_t first = 0) {
  const std::size_t layers = column.sections.size() - 1;
  return buckling_force(column, std::vector<double>(layers, length / static_cast<double>(layers)), first,
                        about_vertical);
}

double euler(const BeamColumn& column, double free_length) {
  return std::pow(std::numbers::pi / (2 * free_length), 2) * column.sections[0].elastic_bending(about_vertical);
}

} // namespace

TEST_CASE("an even cantilever that does not shear buckles at Euler's force") {
  const BeamColumn column = even(48, 1e15);
  CHECK(buckles(column) == Approx(euler(column, length)).epsilon(2e-3));
}

TEST_CASE("shear lowers the buckling force as Engesser says") {
  const BeamColumn column = even(48, 2e6);
  const double shear = shear_stiffness(column.sections[0], about_vertical), bending = euler(column, length);
  CHECK(shear < bending);
  CHECK(buckles(column) == Approx(1 / (1 / bending + 1 / shear)).epsilon(2e-3));
}

TEST_CASE("what is crushed no longer buckles: half the length, four times the force") {
  const BeamColumn column = even(48, 1e15);
  CHECK(buckles(column, 24) == Approx(4 * buckles(column)).epsilon(2e-3));
}

TEST_CASE("the buckling force of an even column converges with the fourth power of the layers") {
  // The midpoint rule's error of second order goes with the slopes of what is summed at both ends: there they are 0.
  const double fine = buckles(even(192, 4e8));
  const double at_12 = buckles(even(12, 4e8)) - fine, at_24 = buckles(even(24, 4e8)) - fine;
  CHECK(at_12 / at_24 == Approx(16).epsilon(0.1));
}

TEST_CASE("a tapered cantilever buckles at the root of its own equation") {
  // E I = B (x / b)^2 from x = a to b: x^2 M'' + (P b^2 / B) M = 0 with M(a) = 0 and M'(b) = 0 gives
  // M = sqrt(x) sin(k ln(x / a)) and tan(k ln(b / a)) = -2 k (derived).
  const double a = 0.6, b = 1.2, root = 1e6;
  double low = std::numbers::pi / (2 * std::log(b / a)), high = std::numbers::pi / std::log(b / a);
  for (int i = 0; i < 60; ++i) {
    const double k = 0.5 * (low + high);
    (std::tan(k * std::log(b / a)) + 2 * k < 0 ? low : high) = k;
  }
  const double exact = (low * low + 0.25) * root / (b * b);
  const BeamColumn column = column_of(length, 96, [&](double station) {
    BeamSection section = bare(station, 0.08, 0.1);
    section.lattice.shear_modulus = 1e15;
    section.lattice.youngs_modulus =
        root * std::pow((a + station) / b, 2) / section.lattice_second_moment[about_vertical];
    return section;
  });
  const double found = buckles(column);
  CHECK(found >= exact * (1 - 1e-3));
  CHECK(found == Approx(exact).epsilon(0.02)); // the deflection line is that of an even column: an upper bound
}

TEST_CASE("a rigid piece on crushing fibres turns over when the force's lever beats their slope") {
  // Derived: turned by phi the fibres right it by F' (I / A) phi, the force turns it by F l phi.
  CHECK(tilting_force(2e6, 0.03, 0.1) == Approx(2e6 * 9e-4 / 0.1));
  CHECK(tilting_force(0, 0.03, 0.1) == 0);
}
