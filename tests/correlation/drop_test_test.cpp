#include "crushwright/correlation.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <numbers>

using namespace crushwright;
using Catch::Contains;

namespace {

constexpr double g = 9.80665;

/// A record as a sensor on the mass would make it: quiet before contact, then a(t) from the moment of contact on. A
/// jump at contact becomes a ramp of one step before it: the mass is stopped half a step early, never late.
DropRecord record(double mass, double speed, double step, double duration, const std::function<double(double)>& a) {
  DropRecord made;
  made.mass = mass;
  made.impact_speed = speed;
  for (int i = -200; i * step < duration; ++i) {
    made.time.push_back(i * step);
    made.acceleration.push_back(i < 0 ? 0 : a(i * step));
  }
  return made;
}

/// Block of constant force: a = F/m until the mass stands still, then nothing.
DropRecord block(double mass, double speed, double force, double step) {
  const double stop = speed / (force / mass - g);
  return record(mass, speed, step, 1.5 * stop, [=](double t) { return t < stop ? force / mass : 0; });
}

/// Spring that is struck: x = A sin(w t) + (m g/k)(1 - cos(w t)).
DropRecord spring(double mass, double speed, double stiffness, double step) {
  const double w = std::sqrt(stiffness / mass), sag = mass * g / stiffness;
  const auto crush = [=](double t) { return speed / w * std::sin(w * t) + sag * (1 - std::cos(w * t)); };
  return record(mass, speed, step, 1.3 * std::numbers::pi / w,
                [=](double t) { return std::max(0.0, crush(t)) * stiffness / mass; });
}

} // namespace

TEST_CASE("a mass dropped on a block of constant force crushes it by its energy over the force less its weight") {
  const double mass = 120, speed = 6, force = 60e3;
  const DropTest test = reduced_drop(block(mass, speed, force, 1e-5));
  const double crush = 0.5 * mass * speed * speed / (force - mass * g);
  CHECK(test.greatest_crush == Approx(crush).epsilon(1e-3));
  CHECK(test.absorbed == Approx(force * crush).epsilon(1e-3));
  CHECK(test.energy_in == Approx(0.5 * mass * speed * speed + mass * g * crush).epsilon(1e-3));
  CHECK(std::abs(test.closure) < 1e-9);
  CHECK(test.rebound_speed == Approx(0).margin(0.02));
  CHECK(test.force.y[test.force.y.size() / 2] == Approx(force).epsilon(1e-12));
}

TEST_CASE("a struck spring gives its own line back, and the speed that it took") {
  const double mass = 50, speed = 4, stiffness = 400e3;
  const DropTest test = reduced_drop(spring(mass, speed, stiffness, 1e-5));
  const double sag = mass * g / stiffness;
  CHECK(test.greatest_crush == Approx(sag + std::sqrt(sag * sag + mass * speed * speed / stiffness)).epsilon(1e-5));
  CHECK(test.rebound_speed == Approx(speed).epsilon(1e-3));
  CHECK(test.lasting_crush == Approx(0).margin(5e-5));
  for (std::size_t i = 0; i < test.force.x.size(); i += 50) {
    CHECK(test.force.y[i] == Approx(stiffness * test.force.x[i]).margin(1e-4 * stiffness * test.greatest_crush));
  }
}

TEST_CASE("the error of a sampled drop falls with the square of the step") {
  const auto miss = [](double step) {
    const DropTest test = reduced_drop(spring(50, 4, 400e3, step));
    const double sag = 50 * g / 400e3;
    return std::abs(test.greatest_crush - (sag + std::sqrt(sag * sag + 50 * 16 / 400e3)));
  };
  const double ratio = miss(4e-4) / miss(2e-4);
  CHECK(ratio == Approx(4).epsilon(0.15));
}

TEST_CASE("speed comes from the height where it is not measured") {
  DropRecord made = block(120, std::sqrt(2 * g * 2.0), 60e3, 1e-5);
  made.impact_speed.reset();
  made.drop_height = 2.0;
  CHECK(reduced_drop(made).impact_speed == Approx(6.2632).epsilon(1e-4));
  made.impact_speed = 5.9;
  const DropTest test = reduced_drop(made);
  CHECK(test.impact_speed == 5.9);
  REQUIRE_FALSE(test.warnings.empty());
  CHECK_THAT(test.warnings.front(), Contains("friction of the guide"));
}

TEST_CASE("a bias that stands before contact is taken off; the answer does not know it") {
  const DropRecord clean = block(120, 6, 60e3, 1e-5);
  DropRecord shifted = clean;
  for (double& reading : shifted.acceleration) {
    reading += 7.5;
  }
  const DropTest test = reduced_drop(shifted);
  CHECK(test.bias == Approx(7.5).epsilon(1e-9));
  CHECK(test.greatest_crush == Approx(reduced_drop(clean).greatest_crush).epsilon(1e-9));
}

TEST_CASE("a record without the gravity's work would miss the crush by the share of the weight") {
  DropRecord made = block(120, 6, 60e3, 1e-5);
  const double with = reduced_drop(made).greatest_crush;
  made.gravity = 0;
  CHECK(reduced_drop(made).greatest_crush / with == Approx(1 - 120 * g / 60e3).epsilon(2e-3));
}

TEST_CASE("the measured specimen tells a bias that the record cannot, and its size") {
  DropRecord made = block(120, 6, 60e3, 1e-5);
  made.lasting_crush = reduced_drop(made).lasting_crush;
  const double bias = 12; // 2.4 % of the reading, in the pulse only: a quiet stretch does not show it
  for (double& reading : made.acceleration) {
    reading += reading > 0 ? bias : 0;
  }
  const DropTest test = reduced_drop(made);
  REQUIRE(test.crush_closure);
  CHECK(*test.crush_closure < -0.02);
  REQUIRE(test.closing_bias);
  CHECK(*test.closing_bias == Approx(bias).epsilon(0.02));
}

TEST_CASE("a record that ends in motion says so and keeps the energy that is left") {
  DropRecord made = block(120, 6, 60e3, 1e-5);
  made.time.resize(900);
  made.acceleration.resize(900);
  const DropTest test = reduced_drop(made);
  CHECK(test.energy_left > 0);
  CHECK(std::abs(test.closure) < 1e-9);
  CHECK_THAT(test.warnings.front(), Contains("ends while the mass still moves"));
}

TEST_CASE("what cannot be a drop record is refused with what is wrong") {
  const DropRecord good = block(120, 6, 60e3, 1e-5);
  const auto words = [](DropRecord made) -> std::string {
    try {
      reduced_drop(made);
    } catch (const OutOfDomain& fault) {
      return fault.what();
    }
    return "not refused";
  };
  DropRecord made = good;
  made.time[40] = made.time[39];
  CHECK_THAT(words(made), Contains("goes back at point 41"));
  made = good;
  made.impact_speed.reset();
  CHECK_THAT(words(made), Contains("neither the drop height nor the impact speed"));
  made = good;
  for (double& reading : made.acceleration) {
    reading = -reading;
  }
  CHECK_THAT(words(made), Contains("is its sign right?"));
  made = good;
  made.acceleration.assign(made.acceleration.size(), 0.0);
  CHECK_THAT(words(made), Contains("no contact"));
  made = good;
  made.mass = 0;
  CHECK_THAT(words(made), Contains("mass is 0 kg"));
}
