#include "impact/test_impacts.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace test_impacts;

namespace {

Group at(double lateral, const CrushCurve& curve, double share) {
  Group group = alone(lateral > 0 ? "left" : "right", curve, share);
  group.lines[0].lateral = lateral;
  return group;
}

} // namespace

TEST_CASE("a push on the left rear turns the body to the right, by the lever times the momentum") {
  const double mass = 1200, speed = 9, radius = 1.3;
  const CrushCurve curve = lattice_like();
  const ImpactMotion motion = integrate_impact(body(1100), body(mass), speed, {at(0.4, curve, 1)});
  const YawLoad load = yaw_load(motion, body(mass), 0.1, radius);
  const double momentum = mass * speed_change(motion, body(mass));
  CHECK(load.arm == Approx(0.3).epsilon(1e-9));
  CHECK(load.impulse == Approx(-0.3 * momentum).epsilon(1e-8));
  CHECK(load.peak_moment == Approx(0.3 * motion.columns[0].peak_force).epsilon(1e-9));
  CHECK(load.rate == Approx(-0.3 * momentum / (mass * radius * radius)).epsilon(1e-8));
  CHECK(load.energy == Approx(0.5 * mass * radius * radius * load.rate * load.rate).epsilon(1e-12));
  CHECK(load.share_of_energy == Approx(load.energy / motion.ledger.input).epsilon(1e-12));
}

TEST_CASE("equal structures on both sides of the centre do not turn a body, and a held body never turns") {
  const CrushCurve curve = lattice_like();
  const ImpactMotion motion = integrate_impact(body(1100), wall(), 9, {at(0.4, curve, 0.5), at(-0.4, curve, 0.5)});
  CHECK(yaw_load(motion, body(1100), 0, 1.3).impulse == 0);
  CHECK(yaw_load(motion, body(1100), 0, 1.3).peak_moment == 0);
  CHECK(yaw_load(motion, wall(), 0.2, 1.3).rate == 0);
  CHECK(yaw_load(motion, body(1100), 0.2, 0).rate == 0);
}

TEST_CASE("moments that balance but for rounding are none, and a small lever that is there stays") {
  // Three equal structures whose sum of levers is rounding: 0.1 + 0.2 - 0.3 is not 0 in binary.
  const double third = 1.0 / 3;
  const CrushCurve curve = lattice_like();
  const auto turned = [&](double beside) {
    const ImpactMotion motion = integrate_impact(
        body(1100), wall(), 9, {at(0.1, curve, third), at(0.2 + beside, curve, third), at(-0.3, curve, third)});
    return yaw_load(motion, body(1100), 0, 1.3);
  };
  REQUIRE(0.1 + 0.2 - 0.3 != 0);
  const YawLoad balanced = turned(0);
  CHECK(balanced.peak_moment == 0);
  CHECK(balanced.impulse == 0);
  CHECK(balanced.arm == 0);
  CHECK(balanced.rate == 0);
  CHECK(balanced.energy == 0);
  const YawLoad slight = turned(1e-6); // a third of the push, a micrometre beside
  CHECK(slight.arm == Approx(1e-6 / 3).epsilon(1e-6));
  CHECK(slight.peak_moment > 0);
}
