// Motions with closed forms (derived): constant force, spring, elastic-plastic block.
#include "impact/test_impacts.hpp"

#include "crush_curve/test_layers.hpp"
#include "crushwright/errors.hpp"
#include "crushwright/impact.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <numbers>

using namespace crushwright;
using namespace test_impacts;
using std::numbers::pi;

TEST_CASE("a constant force stops a mass in m v^2 / 2F and in m v / F") {
  const double mass = 300, speed = 7, force = 58e3;
  const Layer layer = test_layers::layer(0, 1, force, test_layers::rigid_plastic_locking(0.6, 1e-12), 0.6);
  for (const CrushCurve& curve : {constant_force(force), crush_curve({layer})}) {
    const ColumnMotion column = hit(body(mass), wall(), speed, curve).columns.front();
    CHECK(column.peak_crush == Approx(mass * speed * speed / (2 * force)).epsilon(1e-9));
    CHECK(column.stop_time == Approx(mass * speed / force).epsilon(1e-9));
    CHECK(column.peak_force == Approx(force).epsilon(1e-9));
    CHECK(column.absorbed / column.residual_crush == Approx(force).epsilon(1e-9)); // mean over distance
    CHECK(mass * speed / column.stop_time == Approx(force).epsilon(1e-9));         // mean over time
  }
}

TEST_CASE("a rigid-plastic block gives nothing back") {
  const ImpactMotion motion = hit(body(300), wall(), 7, constant_force(58e3));
  CHECK(motion.groups.front().rebound_speed == 0);
  CHECK(motion.columns.front().residual_crush == motion.columns.front().peak_crush);
  CHECK(motion.columns.front().separation_time == motion.columns.front().stop_time);
  CHECK(motion.ledger.returned == 0);
  CHECK(motion.ledger.absorbed == Approx(7350).epsilon(1e-12));
}

TEST_CASE("an elastic spring returns the mass with the speed it came with") {
  const double mass = 900, speed = 3.3, stiffness = 4e5;
  const ImpactMotion motion =
      hit(body(mass), wall(), speed, test_layers::polyline({{0, 0}, {5, 5 * stiffness}}, stiffness));
  const ColumnMotion& column = motion.columns.front();
  CHECK(column.peak_force == Approx(speed * std::sqrt(stiffness * mass)).epsilon(1e-9));
  CHECK(column.stop_time == Approx(0.5 * pi / std::sqrt(stiffness / mass)).epsilon(1e-9));
  CHECK(column.separation_time == Approx(pi / std::sqrt(stiffness / mass)).epsilon(1e-9));
  CHECK(motion.groups.front().rebound_speed == Approx(speed).epsilon(1e-9));
  CHECK(std::abs(column.residual_crush) < 1e-9 * column.peak_crush);
  CHECK(std::abs(motion.ledger.absorbed) < 1e-9 * motion.ledger.input);
}

TEST_CASE("between two free bodies the spring works with the effective mass") {
  const double stiffness = 4e5, speed = 3.3, effective = 900.0 * 1500 / 2400;
  const CrushCurve spring = test_layers::polyline({{0, 0}, {5, 5 * stiffness}}, stiffness);
  const ColumnMotion column = hit(body(900), body(1500), speed, spring).columns.front();
  CHECK(column.peak_force == Approx(speed * std::sqrt(stiffness * effective)).epsilon(1e-9));
  CHECK(column.separation_time == Approx(pi / std::sqrt(stiffness / effective)).epsilon(1e-9));
}

TEST_CASE("an elastic-plastic block keeps its plastic crush and returns its elastic energy") {
  const double mass = 1000, speed = 5, stiffness = 2e7, force = 1.5e5;
  const ImpactMotion motion = hit(body(mass), wall(), speed, elastic_plastic(stiffness, force));
  const ColumnMotion& column = motion.columns.front();
  const double elastic_crush = force / stiffness;
  const double plastic_crush = (0.5 * mass * speed * speed - 0.5 * force * elastic_crush) / force;
  const double wave = std::sqrt(stiffness / mass);
  const double rise_time = std::asin(force / (speed * std::sqrt(stiffness * mass))) / wave;
  const double flow_time = mass * std::sqrt(speed * speed - force * force / (stiffness * mass)) / force;
  CHECK(column.peak_crush == Approx(elastic_crush + plastic_crush).epsilon(1e-9));
  CHECK(column.residual_crush == Approx(plastic_crush).epsilon(1e-9));
  CHECK(motion.groups.front().rebound_speed == Approx(force / std::sqrt(stiffness * mass)).epsilon(1e-9));
  CHECK(column.stop_time == Approx(rise_time + flow_time).epsilon(1e-9));
  CHECK(column.separation_time == Approx(rise_time + flow_time + 0.5 * pi / wave).epsilon(1e-9));
  CHECK(motion.ledger.absorbed == Approx(force * plastic_crush).epsilon(1e-9));
  CHECK(motion.ledger.returned == Approx(0.5 * force * elastic_crush).epsilon(1e-9));
}

TEST_CASE("unloading never gives back more than loading stored") {
  // A block said to be softer in unloading than the steepest slope it met would create energy.
  const CrushCurve soft = test_layers::polyline({{0, 0}, {0.01, 1e5}, {0.02, 5e5}, {0.03, 2e6}}, 1e4);
  for (double speed = 0.2; speed < 12; speed += 0.37) {
    const ImpactMotion motion = hit(body(500), wall(), speed, soft);
    CHECK(motion.ledger.absorbed >= -1e-9 * motion.ledger.input);
    CHECK(motion.groups.front().rebound_speed <= speed * (1 + 1e-12));
    CHECK(motion.columns.front().residual_crush >= -1e-12);
  }
}

TEST_CASE("the unloading slope is the elastic one when no loading slope was steeper") {
  const double mass = 400, stiffness = 9e7;
  const CrushCurve curve = test_layers::polyline({{0, 0}, {0.01, 1e5}, {10, 1e5}}, stiffness);
  const ImpactMotion motion = hit(body(mass), wall(), 4, curve);
  const ColumnMotion& column = motion.columns.front();
  CHECK(column.peak_crush - column.residual_crush == Approx(1e5 / stiffness).epsilon(1e-9));
  CHECK(motion.groups.front().rebound_speed == Approx(1e5 / std::sqrt(stiffness * mass)).epsilon(1e-12));
}

TEST_CASE("a falling force is integrated as its closed form") {
  // m x'' = -(F - s x): x = (v/w) sinh wt - (F/s)(cosh wt - 1), w = sqrt(s/m).
  const double mass = 800, speed = 6, force = 120e3, slope = 400e3;
  const CrushCurve curve = test_layers::polyline({{0, force}, {0.25, force - 0.25 * slope}});
  const ColumnMotion column = hit(body(mass), wall(), speed, curve).columns.front();
  REQUIRE(column.peak_crush < 0.25);
  const double wave = std::sqrt(slope / mass);
  const double time = std::atanh(speed * slope / (wave * force)) / wave;
  CHECK(column.stop_time == Approx(time).epsilon(1e-9));
  CHECK(column.peak_crush ==
        Approx(speed / wave * std::sinh(wave * time) - force / slope * (std::cosh(wave * time) - 1)).epsilon(1e-9));
  CHECK(column.peak_force == Approx(force).epsilon(1e-12));
  CHECK(column.stop_force == Approx(force - slope * column.peak_crush).epsilon(1e-9));
}

TEST_CASE("the result does not depend on points inserted in the curve") {
  const CrushCurve plain = lattice_like();
  std::vector<std::pair<double, double>> points;
  for (std::size_t i = 0; i + 1 < plain.crush.size(); ++i)
    for (const double part : {0.0, 1e-6, 0.31, 0.5, 0.77}) {
      const double crush = plain.crush[i] + part * (plain.crush[i + 1] - plain.crush[i]);
      points.emplace_back(crush, plain.force[i] + part * (plain.force[i + 1] - plain.force[i]));
    }
  points.emplace_back(plain.crush.back(), plain.force.back());
  const CrushCurve fine = test_layers::polyline(points, plain.elastic_stiffness);
  for (const double speed : {1.0, 4.0, 7.0, 9.0}) {
    const ImpactMotion coarse = hit(body(300), wall(), speed, plain), split = hit(body(300), wall(), speed, fine);
    const ColumnMotion &a = coarse.columns.front(), &b = split.columns.front();
    CHECK(b.peak_crush == Approx(a.peak_crush).epsilon(1e-10));
    CHECK(b.stop_time == Approx(a.stop_time).epsilon(1e-10));
    CHECK(b.separation_time == Approx(a.separation_time).epsilon(1e-10));
    CHECK(split.groups.front().rebound_speed == Approx(coarse.groups.front().rebound_speed).epsilon(1e-8));
    CHECK(b.residual_crush == Approx(a.residual_crush).epsilon(1e-10));
    CHECK(b.absorbed == Approx(a.absorbed).epsilon(1e-10));
  }
}

TEST_CASE("an impact outside its domain is refused with its values") {
  const CrushCurve curve = constant_force(1e4);
  const std::vector<Group> half{alone("left", curve, 0.4)};
  const std::vector<Group> none{alone("left", curve, 0.0), alone("right", curve, 1.0)};
  CHECK_THROWS_WITH(integrate_impact(body(300), wall(), 7, half),
                    "the shares of an impact sum to 0.4; they must sum to 1");
  CHECK_THROWS_WITH(integrate_impact(body(300), wall(), 7, none),
                    "the share of left is 0; it must be above 0 and at most 1");
  CHECK_THROWS_WITH(hit(body(300), wall(), 0, curve), "the closing speed is 0 m/s; it must be above 0");
  CHECK_THROWS_WITH(hit(body(-1), wall(), 7, curve),
                    "body body has a mass of -1 kg; it must be above 0, or the body must be held");
  CHECK_THROWS_WITH(hit(wall(), wall(), 7, curve), "wall and wall are both held; one body of an impact must be free");
  const ImpactMotion motion = hit(body(300), wall(), 7, curve);
  CHECK_THROWS_WITH(sample(motion, 0), "the sampling step is 0 s; it must be above 0");
  CHECK_THROWS_AS(acceleration_signal(motion, body(300), -1e-4), OutOfDomain);
  CHECK_THROWS_WITH(speeds_after(body(1), body(1), 1, 0, 1.5),
                    "the coefficient of restitution is 1.5; it must be from 0 to 1");
}
