#include "crush_curve/test_layers.hpp"
#include "crushwright/impact.hpp"
#include "impact/test_impacts.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <vector>

using namespace crushwright;
using namespace test_impacts;

namespace {

ImpactMotion two_cars(double speed = 9) {
  return hit(body(1100), body(1180), speed, lattice_like());
}

std::vector<Group> sixty_forty(const CrushCurve& left, const CrushCurve& right) {
  return {alone("left", left, 0.6), alone("right", right, 0.4)};
}

} // namespace

TEST_CASE("the effective mass of two bodies is that of a spring between them, and of a body and a wall the body's") {
  CHECK(effective_mass(body(1100), body(1180)) == Approx(1 / (1 / 1100.0 + 1 / 1180.0)).epsilon(1e-14));
  CHECK(effective_mass(body(1100), wall()) == 1100);
  CHECK(effective_mass(wall(), body(1180)) == 1180);
  CHECK(effective_mass(body(1100), body(1e15)) == Approx(1100).epsilon(1e-9));
}

TEST_CASE("momentum is kept, and the relative speed after is the rebound") {
  for (const double speed : {1.0, 5.0, 9.0, 13.0}) {
    const ImpactMotion motion = two_cars(speed);
    const ImpactHistory history = sample(motion, 1e-4);
    for (std::size_t n = 0; n < history.time.size(); ++n)
      CHECK(1100 * history.striker_speed[n] + 1180 * history.struck_speed[n] == Approx(1100 * speed).epsilon(1e-9));
    const double apart = history.struck_speed.back() - history.striker_speed.back();
    CHECK(apart == Approx(motion.groups.front().rebound_speed).epsilon(1e-9));
  }
}

TEST_CASE("kinetic energy before equals kinetic energy after plus what the structure absorbed") {
  const double speed = 9;
  const ImpactMotion motion = two_cars(speed);
  const ImpactHistory history = sample(motion, 1e-4);
  const double before = 0.5 * 1100 * speed * speed;
  const double after =
      0.5 * 1100 * std::pow(history.striker_speed.back(), 2) + 0.5 * 1180 * std::pow(history.struck_speed.back(), 2);
  CHECK(before - after == Approx(motion.ledger.absorbed).epsilon(1e-9));
}

TEST_CASE("the energy ledger closes") {
  for (double speed = 0.5; speed < 16; speed += 0.31) {
    const ImpactMotion motion = two_cars(speed);
    CHECK(std::abs(motion.ledger.residual) < 1e-9 * motion.ledger.input);
    CHECK(motion.ledger.input == Approx(available_energy(body(1100), body(1180), speed)).epsilon(1e-14));
    CHECK(motion.ledger.absorbed > 0);
  }
}

TEST_CASE("a layered structure stopped anywhere on its curve closes its ledger") {
  const CrushCurve curve = crush_curve(
      {test_layers::lattice_layer(0, 0.06, 40e3), test_layers::lattice_layer(0.06, 0.06, 52e3)}, {1.4, 0.01});
  for (double speed = 0.3; speed < 14; speed += 0.17)
    CHECK(std::abs(hit(body(180), wall(), speed, curve).ledger.residual) < 1e-9 * 90 * speed * speed);
}

TEST_CASE("striker and struck may change roles: the crush is the same, and each keeps its own acceleration") {
  const ImpactMotion one = hit(body(1100), body(1180), 8, lattice_like());
  const ImpactMotion other = hit(body(1180), body(1100), 8, lattice_like());
  CHECK(other.columns.front().peak_crush == Approx(one.columns.front().peak_crush).epsilon(1e-14));
  CHECK(other.groups.front().rebound_speed == Approx(one.groups.front().rebound_speed).epsilon(1e-14));
  const ImpactHistory a = sample(one, 1e-4), b = sample(other, 1e-4);
  REQUIRE(a.time.size() == b.time.size());
  for (std::size_t n = 0; n < a.time.size(); ++n) {
    CHECK(b.struck_acceleration[n] == Approx(a.striker_acceleration[n]).epsilon(1e-12).margin(1e-9));
    CHECK(b.striker_acceleration[n] == Approx(a.struck_acceleration[n]).epsilon(1e-12).margin(1e-9));
  }
}

TEST_CASE("a body onto a held body and a held body struck from the other side are one impact") {
  const ImpactHistory onto = sample(hit(body(900), wall(), 6, lattice_like()), 1e-4);
  const ImpactHistory into = sample(hit(wall(), body(900), 6, lattice_like()), 1e-4);
  REQUIRE(onto.time.size() == into.time.size());
  CHECK(onto.striker_speed.front() == Approx(6));
  CHECK(into.struck_speed.front() == Approx(-6));
  for (std::size_t n = 0; n < onto.time.size(); ++n) {
    CHECK(into.struck_speed[n] == Approx(-onto.striker_speed[n]).margin(1e-12));
    CHECK(into.column_crush[0][n] == Approx(onto.column_crush[0][n]).margin(1e-15));
    CHECK(onto.struck_speed[n] == 0);
    CHECK(onto.struck_acceleration[n] == 0);
    CHECK(into.striker_acceleration[n] == 0);
  }
}

TEST_CASE("shares split the energy, and momentum still holds") {
  const CrushCurve left = lattice_like(), right = scaled(lattice_like(), 0.8, 1.1);
  const ImpactMotion motion = integrate_impact(body(1100), body(1180), 9, sixty_forty(left, right));
  const double input = available_energy(body(1100), body(1180), 9);
  CHECK(motion.columns[0].input_energy == Approx(0.6 * input).epsilon(1e-12));
  CHECK(motion.columns[1].input_energy == Approx(0.4 * input).epsilon(1e-12));
  for (const ColumnMotion& column : motion.columns)
    CHECK(column.absorbed + column.returned == Approx(column.input_energy).epsilon(1e-9));
  CHECK(left.energy_at(motion.columns[0].peak_crush) == Approx(0.6 * input).epsilon(1e-9));
  CHECK(right.energy_at(motion.columns[1].peak_crush) == Approx(0.4 * input).epsilon(1e-9));
  CHECK(std::abs(motion.ledger.residual) < 1e-9 * input);
  const ImpactHistory history = sample(motion, 1e-4);
  for (std::size_t n = 0; n < history.time.size(); ++n) {
    CHECK(1100 * history.striker_speed[n] + 1180 * history.struck_speed[n] == Approx(9900).epsilon(1e-9));
    CHECK(history.force[n] == Approx(history.column_force[0][n] + history.column_force[1][n]));
  }
}

TEST_CASE("two equal columns are one column with the summed curve") {
  const CrushCurve one = lattice_like(), both = scaled(one, 2, 1);
  const ImpactMotion pair =
      integrate_impact(body(1100), body(1180), 11, {alone("left", one, 0.5), alone("right", one, 0.5)});
  const ImpactMotion single = hit(body(1100), body(1180), 11, both);
  REQUIRE(pair.columns.size() == 2);
  CHECK(pair.columns[1].structure == "right");
  for (const ColumnMotion& column : pair.columns) {
    CHECK(column.peak_crush == Approx(single.columns[0].peak_crush).epsilon(1e-12));
    CHECK(column.separation_time == Approx(single.columns[0].separation_time).epsilon(1e-12));
    CHECK(pair.groups[column.group].rebound_speed == Approx(single.groups[0].rebound_speed).epsilon(1e-9));
    CHECK(2 * column.peak_force == Approx(single.columns[0].peak_force).epsilon(1e-12));
  }
  CHECK(pair.peak_total_force == Approx(single.columns[0].peak_force).epsilon(1e-12));
  CHECK(pair.ledger.absorbed == Approx(single.ledger.absorbed).epsilon(1e-12));
}

TEST_CASE("the peak of the total force is that of the summed histories") {
  const CrushCurve left = lattice_like(), right = scaled(lattice_like(), 0.7, 1.3);
  const ImpactMotion motion = integrate_impact(body(1100), body(1180), 10, sixty_forty(left, right));
  const ImpactHistory history = sample(motion, 1e-6);
  const double sampled = *std::max_element(history.force.begin(), history.force.end());
  CHECK(motion.peak_total_force == Approx(sampled).epsilon(2e-3));
  CHECK(motion.peak_total_force < motion.columns[0].peak_force + motion.columns[1].peak_force);
}
