// Rigid-plastic-locking layers whose collapse force grows from p0 at the tip by p1 over the length: a force F has
// crushed what is weaker, (F - p0) L / p1, and the energy to a crush e X is e (p0 X + p1 X^2 / 2 L) (derived).
#include "crush_curve/test_layers.hpp"
#include "crushwright/column_check.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using namespace test_layers;

namespace {

constexpr double length = 0.4, locking = 0.7, p0 = 20e3, p1 = 40e3;
constexpr std::size_t count = 40;

double graded(double station) {
  return p0 + p1 * station / length;
}

std::vector<Layer> layers() {
  return layers_of(count, length, graded, locking);
}

} // namespace

TEST_CASE("after a hit the share crushed is that of the layers weaker than the force") {
  const CrushCurve curve = crush_curve(layers());
  for (const double share : {0.1, 0.25, 0.5, 0.9}) {
    const AfterHit left =
        after_hit(curve, layers(), locking * share * length, graded(share * length), locking * length);
    CHECK(left.crushed_share == Approx(share).epsilon(1e-9));
    CHECK(left.length_left == Approx((1 - share) * length).epsilon(1e-9));
    CHECK(left.standing_at_root == Approx((1 - share) * length).epsilon(1e-9));
  }
}

TEST_CASE("energy used and energy left are the whole, and follow the closed form") {
  const CrushCurve curve = crush_curve(layers());
  const auto energy = [](double front) { return locking * (p0 * front + p1 * front * front / (2 * length)); };
  for (const double share : {0.1, 0.25, 0.5, 0.9}) {
    const double crush = locking * share * length;
    const AfterHit left = after_hit(curve, layers(), crush, graded(share * length), locking * length);
    CHECK(left.energy_left + curve.energy_at(crush) == Approx(curve.energy_at(locking * length)).epsilon(1e-12));
    CHECK(left.energy_left == Approx(energy(length) - energy(share * length)).epsilon(1e-6));
    CHECK(left.share_of_energy == Approx(left.energy_left / energy(length)).epsilon(1e-6));
  }
}

TEST_CASE("a hit that collapses nothing leaves everything") {
  const AfterHit left = after_hit(crush_curve(layers()), layers(), 0, 0.9 * p0, locking * length);
  CHECK(left.crushed_share == 0);
  CHECK(left.length_left == Approx(length));
  CHECK(left.share_of_energy == 1);
}

TEST_CASE("what the stroke ends before leaves no energy, though length may stand") {
  const double half = 0.5 * length;
  const AfterHit left = after_hit(crush_curve(layers()), layers(), locking * half, graded(half), locking * half);
  CHECK(left.energy_left == 0);
  CHECK(left.share_of_energy == 0);
  CHECK(left.length_left == Approx(half));
}

TEST_CASE("a first peak that was passed does not count as force at the stop") {
  // The peak of 1.8 times the first layer's force would crush 32 % of the length if it were taken for the stop's.
  FirstPeak peak;
  peak.ratio = 1.8;
  peak.fall_crush = 0.002;
  const CrushCurve curve = crush_curve(layers(), peak);
  const double crush = locking * 0.1 * length;
  CHECK(curve.peak_force_up_to(crush) > 1.3 * graded(0.1 * length));
  CHECK(after_hit(curve, layers(), crush, graded(0.1 * length), locking * length).crushed_share ==
        Approx(0.1).epsilon(1e-9));
}

TEST_CASE("a structure that is weakest at its attachment has nothing standing there after a hit") {
  const auto weak_root = layers_of(
      count, length, [](double station) { return graded(length - station); }, locking);
  const AfterHit left =
      after_hit(crush_curve(weak_root), weak_root, locking * 0.1 * length, graded(0.1 * length), locking * length);
  CHECK(left.length_left == Approx(0.9 * length));
  CHECK(left.standing_at_root == 0);
}

TEST_CASE("no layers are refused") {
  CHECK_THROWS_AS(after_hit(crush_curve(layers()), {}, 0.1, 1e3, 0.2), OutOfDomain);
}
