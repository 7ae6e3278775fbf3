// Rigid-plastic-locking structures with a collapse force that grows towards the root: the crush front has a closed
// form. With collapse force p(x), locking strain e and the front at X: crush = e X, force = p(X), energy = e ∫ p dx
// (derived).
#include "crush_curve/test_layers.hpp"
#include "crushwright/crush_curve.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <vector>

using namespace crushwright;
using namespace test_layers;

namespace {

constexpr double length = 0.3, locking = 0.65, p0 = 20e3, p1 = 35e3;

double linear(double x) {
  return p0 + p1 * x / length;
}
double linear_energy(double front) {
  return locking * (p0 * front + p1 * front * front / (2 * length));
}

constexpr double stress = 2.5e6, tip_width = 0.08, root_width = 0.16;
double width(double x) {
  return tip_width + (root_width - tip_width) * x / length;
}
double tapered(double x) {
  return stress * width(x) * width(x);
}
double tapered_energy(double front) {
  const double slope = (root_width - tip_width) / length;
  return locking * stress * (std::pow(width(front), 3) - std::pow(tip_width, 3)) / (3 * slope);
}

double order(double coarse_error, double fine_error) {
  return std::log2(coarse_error / fine_error);
}

} // namespace

TEST_CASE("linear grading follows the closed form of a moving crush front") {
  constexpr std::size_t count = 400;
  const CrushCurve curve = crush_curve(layers_of(count, length, linear, locking));
  for (const double front : {0.06, 0.15, 0.225, 0.3}) { // ends of layers, where the staircase meets the line
    CHECK(curve.energy_at(locking * front) == Approx(linear_energy(front)).epsilon(1e-8));
    const double half_layer = 0.5 * length / count;
    CHECK(curve.force_at(locking * (front - half_layer)) == Approx(linear(front - half_layer)).epsilon(1e-8));
  }
}

TEST_CASE("within a layer the energy of linear grading misses by e p1 L / (8 N^2)") {
  std::vector<double> errors;
  for (const std::size_t count : {10U, 20U, 40U, 80U}) {
    const CrushCurve curve = crush_curve(layers_of(count, length, linear, locking));
    const double n = static_cast<double>(count);
    const double front = length * (std::floor(n / 2) + 0.5) / n;
    errors.push_back(std::abs(curve.energy_at(locking * front) - linear_energy(front)));
    CHECK(errors.back() == Approx(locking * p1 * length / (8 * n * n)).epsilon(1e-4));
  }
  for (std::size_t i = 1; i < errors.size(); ++i) {
    CHECK(order(errors[i - 1], errors[i]) > 1.9);
    CHECK(order(errors[i - 1], errors[i]) < 2.1);
  }
}

TEST_CASE("the energy of a linear taper converges with the square of the number of layers") {
  std::vector<double> errors;
  for (const std::size_t count : {5U, 10U, 20U, 40U, 80U}) {
    const CrushCurve curve = crush_curve(layers_of(count, length, tapered, locking));
    errors.push_back(std::abs(curve.energy_at(locking * length) - tapered_energy(length)));
  }
  for (std::size_t i = 1; i < errors.size(); ++i) {
    CHECK(order(errors[i - 1], errors[i]) > 1.9);
    CHECK(order(errors[i - 1], errors[i]) < 2.1);
  }
  CHECK(errors.back() < 1e-4 * tapered_energy(length));
}

TEST_CASE("a taper's force follows its section as the front moves") {
  constexpr std::size_t count = 200;
  const CrushCurve curve = crush_curve(layers_of(count, length, tapered, locking));
  for (std::size_t i = 10; i < count; i += 37) {
    const double middle = length * (static_cast<double>(i) + 0.5) / count;
    CHECK(curve.force_at(locking * middle) == Approx(tapered(middle)).epsilon(1e-8));
  }
}

TEST_CASE("a grading that grows towards the struck end crushes from the attachment and gives the same curve") {
  const CrushCurve from_tip = crush_curve(layers_of(40, length, linear, locking));
  const CrushCurve from_root = crush_curve(layers_of(
      40, length, [](double x) { return linear(length - x); }, locking));
  for (double crush = 0.001; crush < locking * length; crush += 0.0013)
    CHECK(from_root.energy_at(crush) == Approx(from_tip.energy_at(crush)).epsilon(1e-9));
  CHECK(inversions(layers_of(
                       40, length, [](double x) { return linear(length - x); }, locking))
            .size() == 39);
}
