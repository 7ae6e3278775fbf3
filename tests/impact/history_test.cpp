#include "crush_curve/test_layers.hpp"
#include "crushwright/impact.hpp"
#include "impact/test_impacts.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <string>
#include <vector>

using namespace crushwright;
using namespace test_impacts;

namespace {

/// Two layers with curve points at their efficiency strains; bottoming lies at one of them.
CrushCurve two_layers() {
  return crush_curve({test_layers::lattice_layer(0, 0.06, 40e3), test_layers::lattice_layer(0.06, 0.06, 52e3)},
                     {1.4, 0.01});
}

double integral(const std::vector<double>& values, double step) {
  return step * (std::accumulate(values.begin(), values.end(), 0.0) - 0.5 * (values.front() + values.back()));
}

const ImpactEvent& find(const std::vector<ImpactEvent>& all, const std::string& what) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const ImpactEvent& e) { return e.what == what; });
  REQUIRE(found != all.end());
  return *found;
}

/// Crush at a time, from a fine history, linear between samples.
double crush_at(const ImpactMotion& motion, double time) {
  const ImpactHistory history = sample(motion, 1e-6);
  const auto n = static_cast<std::size_t>(time / history.step);
  const double part = time / history.step - static_cast<double>(n);
  return history.column_crush[0][n] + part * (history.column_crush[0][n + 1] - history.column_crush[0][n]);
}

} // namespace

TEST_CASE("acceleration integrates to the change of speed of each body") {
  const ImpactMotion motion = hit(body(1100), body(1180), 9, lattice_like());
  const ImpactHistory history = sample(motion, 2e-5);
  CHECK(integral(history.striker_acceleration, history.step) ==
        Approx(history.striker_speed.front() - history.striker_speed.back()).epsilon(1e-4));
  CHECK(integral(history.struck_acceleration, history.step) ==
        Approx(history.struck_speed.back() - history.struck_speed.front()).epsilon(1e-4));
  const Signal signal = acceleration_signal(motion, body(1180), 2e-5);
  REQUIRE(signal.values.size() == history.time.size());
  CHECK(integral(signal.values, signal.step) == Approx(history.struck_speed.back()).epsilon(1e-4));
  for (const double value : acceleration_signal(motion, wall(), 2e-5).values)
    CHECK(value == 0);
}

TEST_CASE("the history starts at the closing speed and ends at the rebound") {
  const ImpactMotion motion = hit(body(300), wall(), 7, lattice_like());
  const ImpactHistory history = sample(motion, 1e-4);
  CHECK(history.striker_speed.front() == Approx(7).epsilon(1e-12));
  CHECK(history.striker_speed.back() == Approx(-motion.groups[0].rebound_speed).epsilon(1e-9));
  CHECK(history.force.front() == 0);
  CHECK(history.force.back() == 0);
  CHECK(history.time.back() >= motion.columns[0].separation_time);
}

TEST_CASE("the crush history peaks at the greatest crush and then stays at the residual") {
  const CrushCurve left = lattice_like(), right = scaled(lattice_like(), 2.5, 0.6);
  const ImpactMotion motion =
      integrate_impact(body(1100), body(1180), 9, {alone("left", left, 0.6), alone("right", right, 0.4)});
  const ImpactHistory history = sample(motion, 1e-5);
  for (std::size_t i = 0; i < 2; ++i) {
    const std::vector<double>& crush = history.column_crush[i];
    CHECK(*std::max_element(crush.begin(), crush.end()) == Approx(motion.columns[i].peak_crush).epsilon(1e-6));
    CHECK(crush.back() == Approx(motion.columns[i].residual_crush).epsilon(1e-12));
    CHECK(*std::max_element(history.column_force[i].begin(), history.column_force[i].end()) <=
          motion.columns[i].peak_force * (1 + 1e-12));
  }
  CHECK(motion.columns[0].separation_time > motion.columns[1].separation_time + 1e-3);
}

TEST_CASE("force and crush of the history lie on the crush curve while loading") {
  const CrushCurve curve = two_layers();
  const ImpactMotion motion = hit(body(180), wall(), 8, curve);
  const ImpactHistory history = sample(motion, 5e-5);
  for (std::size_t n = 0; n < history.time.size() && history.time[n] < motion.columns[0].stop_time; ++n)
    CHECK(history.force[n] == Approx(curve.force_at(history.column_crush[0][n])).epsilon(1e-9).margin(1e-6));
}

TEST_CASE("crush is the integral of the closing speed") {
  const ImpactMotion motion = hit(body(1100), body(1180), 9, lattice_like());
  const ImpactHistory history = sample(motion, 2e-5);
  double crush = 0;
  for (std::size_t n = 1; n < history.time.size() && history.time[n] < motion.columns[0].separation_time; ++n) {
    const auto closing = [&](std::size_t k) { return history.striker_speed[k] - history.struck_speed[k]; };
    crush += 0.5 * history.step * (closing(n - 1) + closing(n));
    CHECK(history.column_crush[0][n] == Approx(crush).epsilon(1e-5).margin(1e-9));
  }
}

TEST_CASE("bottoming is flagged only when the crush goes past it") {
  const CrushCurve curve = two_layers();
  const double mass = 180;
  const double limit = std::sqrt(2 * curve.energy_at(curve.bottoming_crush) / mass);
  CHECK_FALSE(hit(body(mass), wall(), 0.999 * limit, curve).columns[0].bottomed);
  CHECK(hit(body(mass), wall(), 1.001 * limit, curve).columns[0].bottomed);
}

TEST_CASE("events come in order, at the crush that they name") {
  const CrushCurve curve = two_layers();
  const std::vector<Group> columns{alone("block", curve, 1)};
  const ImpactMotion motion = integrate_impact(body(180), wall(), 11, columns);
  REQUIRE(motion.columns[0].bottomed);
  const std::vector<ImpactEvent> all = events(motion, columns);
  std::vector<std::string> names;
  for (const ImpactEvent& event : all)
    names.push_back(event.what);
  CHECK(names == std::vector<std::string>{"contact", "first collapse", "bottoming", "greatest crush", "separation"});
  CHECK(crush_at(motion, find(all, "first collapse").time) == Approx(curve.crush[1]).epsilon(1e-5));
  CHECK(crush_at(motion, find(all, "bottoming").time) == Approx(curve.bottoming_crush).epsilon(1e-6));
  CHECK(find(all, "greatest crush").time == motion.columns[0].stop_time);
}

TEST_CASE("bottoming between two points of the curve is located too") {
  CrushCurve curve = constant_force(50e3);
  curve.bottoming_crush = 0.1;
  const std::vector<Group> columns{alone("block", curve, 1)};
  const ImpactMotion motion = integrate_impact(body(300), wall(), 7, columns);
  REQUIRE(motion.columns[0].bottomed);
  const double speed_there = std::sqrt(49 - 2 * 50e3 * 0.1 / 300);
  const std::vector<ImpactEvent> all = events(motion, columns);
  CHECK(find(all, "bottoming").time == Approx((7 - speed_there) * 300 / 50e3).epsilon(1e-9));
  CHECK(find(all, "first collapse").time == 0);
}

TEST_CASE("the time at a crush is that of the closed form, with and without an elastic return") {
  const double mass = 300, speed = 7, force = 50e3;
  for (const double stiffness : {0.0, 5e7}) { // 0: rigid-plastic, so no piece of unloading follows
    const CrushCurve curve =
        test_layers::polyline({{0, force}, {0.05, force}, {0.09, force}, {10, force}}, stiffness);
    const ImpactMotion motion = hit(body(mass), wall(), speed, curve);
    const ColumnMotion& column = motion.columns[0];
    for (const double crush : {0.0, 0.02, 0.05, 0.07, 0.09, 0.12}) {
      const double speed_there = std::sqrt(speed * speed - 2 * force * crush / mass);
      CHECK(time_at_crush(motion, column, crush) ==
            Approx((speed - speed_there) * mass / force).epsilon(1e-9).margin(1e-15));
    }
    CHECK(time_at_crush(motion, column, 1) == column.stop_time);
  }
}

TEST_CASE("the force of one column and of all columns are signals whose areas are impulses") {
  const CrushCurve left = lattice_like(), right = scaled(lattice_like(), 2.5, 0.6);
  const ImpactMotion motion =
      integrate_impact(body(1100), body(1180), 9, {alone("left", left, 0.6), alone("right", right, 0.4)});
  const double step = 1e-5;
  const Signal total = force_signal(motion, step);
  double sum = 0;
  for (const ColumnMotion& column : motion.columns) {
    const Signal one = force_signal(motion, step, &column);
    REQUIRE(one.values.size() == total.values.size());
    const double impulse = motion.groups[column.group].moving_mass * (9 + motion.groups[column.group].rebound_speed);
    CHECK(integral(one.values, step) == Approx(impulse).epsilon(1e-4));
    sum += impulse;
  }
  CHECK(integral(total.values, step) == Approx(sum).epsilon(1e-4));
  CHECK(impulse_until(motion, 0) == Approx(0).margin(1e-9));
  CHECK(impulse_until(motion, 1) == Approx(sum).epsilon(1e-12));
  const ImpactHistory history = sample(motion, step);
  CHECK(impulse_until(motion, history.time[1000]) == Approx(1180 * history.struck_speed[1000]).epsilon(1e-9));
}

TEST_CASE("a hit that stays elastic has no first collapse") {
  const CrushCurve curve = elastic_plastic(1e7, 1e5);
  const std::vector<Group> columns{alone("block", curve, 1)};
  for (const ImpactEvent& event : events(integrate_impact(body(300), wall(), 0.5, columns), columns))
    CHECK(event.what != "first collapse");
}
