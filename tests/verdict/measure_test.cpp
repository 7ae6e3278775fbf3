#include "verdict/force_statistic.hpp"
#include "verdict/measure.hpp"
#include "verdict/structure_in_run.hpp"

#include "impact/test_impacts.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <numeric>
#include <random>

using namespace crushwright;
using namespace test_impacts;

namespace {

/// One structure between a free body and a wall, with everything a run needs.
struct Bench {
  CrushCurve curve;
  std::vector<Layer> layers{test_layers::lattice_layer(0, 0.1, 1)};
  Envelope envelope;
  std::vector<Limit> limits;
  std::string block_id = "block", impact_id = "impact";
  double mass = 300, speed = 7;
  ImpactMotion motion{};
  std::vector<StructureView> structures{};

  RunView run() {
    structures = {{&block_id, &layers, &envelope, &curve, 1, 1, 2.0, 0.001, 7.0}};
    motion = integrate_impact(wall(), body(mass), speed, {Group{1, {Line{block_id, &curve}}}});
    return {&impact_id, &motion, &structures, &limits};
  }
  double measured(const Limit& limit) {
    const RunView view = run();
    const auto value = measure(limit, view);
    REQUIRE(value);
    return *value;
  }
};

Limit limit_on(LimitedQuantity quantity, const std::string& of, Statistic statistic = Statistic::peak) {
  Limit limit;
  limit.id = "limit";
  limit.impact = "impact";
  limit.of = of;
  limit.quantity = quantity;
  limit.statistic = statistic;
  return limit;
}

Limit force(Statistic statistic = Statistic::peak) {
  return limit_on(LimitedQuantity::force, "block", statistic);
}

Limit in_first_crush(Limit limit, double crush) {
  limit.window = {WindowKind::first_crush, crush};
  return limit;
}

Limit in_first_energy(Limit limit, double energy) {
  limit.window = {WindowKind::first_energy, energy};
  return limit;
}

Limit filtered_by(Limit limit, int channel_class) {
  limit.channel_class = channel_class;
  return limit;
}

Bench constant_bench(double level = 50e3) {
  Bench bench;
  bench.curve = constant_force(level);
  return bench;
}

/// Elastic without end: δ = v/ω sin ωt.
constexpr double spring = 2e6;
Bench elastic_bench() {
  Bench bench;
  bench.curve = test_layers::polyline({{0, 0}, {1, spring}, {2, 2 * spring}}, spring);
  return bench;
}

} // namespace

TEST_CASE("under a constant force peak, both means and the held level are that force") {
  Bench bench = constant_bench();
  CHECK(bench.measured(force()) == Approx(50e3).epsilon(1e-12));
  CHECK(bench.measured(force(Statistic::mean_over_time)) == Approx(50e3).epsilon(1e-12));
  CHECK(bench.measured(force(Statistic::mean_over_distance)) == Approx(50e3).epsilon(1e-12));
  Limit held = force(Statistic::cumulative_time);
  held.statistic_time = 0.003;
  CHECK(bench.measured(held) == Approx(50e3).epsilon(1e-12));
  CHECK(bench.measured(limit_on(LimitedQuantity::acceleration, "body")) == Approx(50e3 / 300).epsilon(1e-12));
}

namespace {

Limit over_3_ms(Limit limit) {
  limit.statistic_time = 0.003;
  return limit;
}

Limit of_occupant_in_body(Statistic statistic) {
  return limit_on(LimitedQuantity::acceleration, "body", statistic);
}

} // namespace

TEST_CASE("under a constant force the level without break and the best window are that force") {
  Bench bench = constant_bench();
  CHECK(bench.measured(over_3_ms(force(Statistic::continuous_time))) == Approx(50e3).epsilon(1e-12));
  CHECK(bench.measured(over_3_ms(force(Statistic::moving_average))) == Approx(50e3).epsilon(1e-12));
  CHECK(bench.measured(over_3_ms(of_occupant_in_body(Statistic::moving_average))) ==
        Approx(50e3 / 300).epsilon(1e-12));
}

TEST_CASE("a window longer than the impact averages the impulse over the whole window") {
  Bench bench = constant_bench(500e3); // stands still after 4.2 ms
  Limit average = force(Statistic::moving_average);
  average.statistic_time = 0.01;
  // The last sample lies up to one step of 0.1 ms behind the standstill.
  CHECK(bench.measured(average) == Approx(bench.mass * bench.speed / 0.01).epsilon(0.1 / 4.2));
  Limit held = force(Statistic::continuous_time);
  held.statistic_time = 0.01;
  CHECK(bench.measured(held) == 0);
}

TEST_CASE("an elastic structure: the best window is around the peak, P sin(x)/x with x = wD/2") {
  Bench bench = elastic_bench();
  const double wave = std::sqrt(spring / bench.mass), x = wave * 0.0015;
  const double top = bench.speed * std::sqrt(spring * bench.mass);
  const double sampling = std::pow(wave * 1e-4, 2) / 8;
  CHECK(bench.measured(over_3_ms(force(Statistic::moving_average))) ==
        Approx(top * std::sin(x) / x).epsilon(2 * sampling + 1e-9));
  CHECK(bench.measured(over_3_ms(force(Statistic::continuous_time))) ==
        Approx(top * std::cos(x)).epsilon(2 * sampling + 1e-9));
}

TEST_CASE("a trolley stopped at a constant 20 g from 15 m/s: occupant load 23.536 g, pulse index of a long pulse") {
  // Definitions in docs/method/pulse_metric.md; both values derived. Sampling moves the end by less than 0.1 ms.
  const double g = 9.80665, a = 20 * g;
  Bench bench = constant_bench(300 * a);
  bench.speed = 15;
  CHECK(bench.measured(of_occupant_in_body(Statistic::occupant_load)) / g == Approx(23.536).epsilon(2e-3));
  CHECK(bench.measured(of_occupant_in_body(Statistic::pulse_index)) ==
        Approx(a * (1 + std::sqrt(1 + 2 * 0.03 * 2500 / a))).epsilon(1e-9));
  // The same impact of twice the mass under twice the force is the same pulse.
  Bench heavy = constant_bench(600 * a);
  heavy.mass = 600;
  heavy.speed = 15;
  for (const Statistic statistic : {Statistic::occupant_load, Statistic::pulse_index})
    CHECK(heavy.measured(of_occupant_in_body(statistic)) ==
          Approx(bench.measured(of_occupant_in_body(statistic))).epsilon(1e-9));
}

TEST_CASE("a filter hardly moves what an occupant sees") {
  Bench spiky;
  spiky.curve = lattice_like();
  spiky.speed = 4;
  for (const Statistic statistic : {Statistic::occupant_load, Statistic::pulse_index}) {
    const double raw = spiky.measured(of_occupant_in_body(statistic));
    CHECK(raw > 0);
    for (const int channel_class : {60, 180, 600, 1000}) {
      const double smooth = spiky.measured(filtered_by(of_occupant_in_body(statistic), channel_class));
      INFO("class " << channel_class << ": " << smooth << " for " << raw);
      CHECK(smooth == Approx(raw).epsilon(0.005));
      CHECK(smooth != raw);
    }
  }
}

TEST_CASE("what an occupant sees may lie above the body's peak, so no cheap bound is stated for it") {
  Bench bench = constant_bench();
  const RunView run = bench.run();
  const double top = *measure(limit_on(LimitedQuantity::acceleration, "body"), run);
  CHECK(*measure(of_occupant_in_body(Statistic::pulse_index), run) > top);
  for (const int channel_class : {0, 60})
    for (const Statistic statistic : {Statistic::occupant_load, Statistic::pulse_index})
      CHECK(std::isinf(greatest_possible(filtered_by(of_occupant_in_body(statistic), channel_class), run)));
}

TEST_CASE("crush and energy under a constant force are those of energy over force") {
  Bench bench = constant_bench();
  CHECK(bench.measured(limit_on(LimitedQuantity::crush, "block")) == Approx(7350.0 / 50e3).epsilon(1e-12));
  CHECK(bench.measured(limit_on(LimitedQuantity::energy, "block")) == Approx(7350.0).epsilon(1e-12));
}

TEST_CASE("a level is not held for longer than the impact lasts") {
  Bench bench = constant_bench(5e6); // stands still after 0.42 ms
  Limit held = force(Statistic::cumulative_time);
  held.statistic_time = 0.003;
  CHECK(bench.measured(held) == 0);
}

TEST_CASE("an elastic structure: peak v√(km), mean over time 2/π of it, over distance 1/2, held level cos(ωt/2)") {
  Bench bench = elastic_bench();
  const double wave = std::sqrt(spring / bench.mass);
  const double peak = bench.speed * std::sqrt(spring * bench.mass);
  CHECK(bench.measured(force()) == Approx(peak).epsilon(1e-12));
  CHECK(bench.measured(force(Statistic::mean_over_time)) == Approx(2 / std::numbers::pi * peak).epsilon(1e-12));
  CHECK(bench.measured(force(Statistic::mean_over_distance)) == Approx(0.5 * peak).epsilon(1e-12));
  Limit held = force(Statistic::cumulative_time);
  held.statistic_time = 0.003;
  // Sampled at 0.1 ms with straight lines between: off by (ω h)²/8 of the peak at most.
  const double sampling = std::pow(wave * 1e-4, 2) / 8;
  CHECK(bench.measured(held) == Approx(peak * std::cos(wave * 0.0015)).epsilon(2 * sampling + 1e-9));
}

TEST_CASE("a window of crush looks at that crush alone, in peak and in both means") {
  Bench bench = elastic_bench();
  const double crush = 0.02, wave = std::sqrt(spring / bench.mass);
  CHECK(bench.measured(in_first_crush(force(), crush)) == Approx(spring * crush).epsilon(1e-12));
  CHECK(bench.measured(in_first_crush(force(Statistic::mean_over_distance), crush)) ==
        Approx(0.5 * spring * crush).epsilon(1e-12));
  const double time = std::asin(crush * wave / bench.speed) / wave;
  const double impulse = bench.mass * bench.speed * (1 - std::cos(wave * time));
  CHECK(bench.measured(in_first_crush(force(Statistic::mean_over_time), crush)) ==
        Approx(impulse / time).epsilon(1e-9));
}

TEST_CASE("a window longer than the crush is the whole impact") {
  Bench bench = elastic_bench();
  for (const Statistic statistic : {Statistic::peak, Statistic::mean_over_time, Statistic::mean_over_distance})
    CHECK(bench.measured(in_first_crush(force(statistic), 5)) == Approx(bench.measured(force(statistic))));
}

TEST_CASE("a window of energy ends where that energy has been absorbed") {
  Bench bench = elastic_bench();
  const double crush = std::sqrt(2 * 1000 / spring);
  CHECK(bench.measured(in_first_energy(force(), 1000)) == Approx(spring * crush).epsilon(1e-9));
  CHECK(bench.measured(in_first_energy(force(Statistic::mean_over_distance), 1000)) ==
        Approx(1000 / crush).epsilon(1e-9));
}

TEST_CASE("a class-60 filter lowers a spike and hardly touches a long half sine") {
  Bench spiky;
  spiky.curve = lattice_like();
  spiky.speed = 4; // stops on the plateau, well below the first peak
  const double raw = spiky.measured(force()), smooth = spiky.measured(filtered_by(force(), 60));
  CHECK(raw == Approx(62e3));
  CHECK(smooth < 0.97 * raw);
  CHECK(smooth > 0.60 * raw);
  Bench slow = elastic_bench();
  slow.mass = 20000;
  CHECK(slow.measured(filtered_by(force(), 60)) == Approx(slow.measured(force())).epsilon(0.005));
}

TEST_CASE("a filtered mean over time ends at the last standstill, as an unfiltered one does") {
  // Elastic: compression and return take equal time, so a mean to the separation would be the same; a structure
  // that keeps its crush and returns slowly tells the two apart.
  Bench bench;
  bench.curve = test_layers::polyline({{0, 20e3}, {10, 20e3}}, 2e5);
  const double raw = bench.measured(force(Statistic::mean_over_time));
  CHECK(raw == Approx(20e3).epsilon(1e-12));
  const ColumnMotion& column = bench.motion.columns.front();
  CHECK(column.separation_time > 1.5 * column.stop_time);
  CHECK(bench.measured(filtered_by(force(Statistic::mean_over_time), 180)) == Approx(raw).epsilon(0.01));
}

TEST_CASE("stroke used and reserve end at the lowest force limit, or at bottoming without one") {
  Bench bench;
  bench.curve = test_layers::polyline({{0, 40e3}, {0.2, 60e3}, {0.25, 400e3}}); // 100 kN/m up to 0.2 m
  bench.curve.bottoming_crush = 0.2;
  const double energy = 7350, crush = bench.measured(limit_on(LimitedQuantity::crush, "block"));
  CHECK(40e3 * crush + 0.5 * 100e3 * crush * crush == Approx(energy).epsilon(1e-12));
  const Limit used = limit_on(LimitedQuantity::stroke_used, "block");
  const Limit reserve = limit_on(LimitedQuantity::reserve, "block");
  CHECK(bench.measured(used) == Approx(crush / 0.2).epsilon(1e-12));
  CHECK(bench.measured(reserve) == Approx(10e3 / energy - 1).epsilon(1e-12));
  Limit rail = force();
  rail.value.value = 58e3; // met at 0.18 m
  bench.limits = {rail};
  CHECK(bench.measured(used) == Approx(crush / 0.18).epsilon(1e-9));
  CHECK(bench.measured(reserve) == Approx((40e3 * 0.18 + 50e3 * 0.18 * 0.18) / energy - 1).epsilon(1e-9));
  Limit cabin = limit_on(LimitedQuantity::acceleration, "body");
  cabin.value.value = 55e3 / 300; // met at 0.15 m
  bench.limits = {rail, cabin};
  CHECK(bench.measured(used) == Approx(crush / 0.15).epsilon(1e-9));
  // A limit of another impact, a mean and a window say nothing of this stroke.
  bench.limits = {in_first_crush(cabin, 0.01)};
  CHECK(bench.measured(used) == Approx(crush / 0.2).epsilon(1e-12));
  cabin.impact = "another";
  bench.limits = {cabin};
  CHECK(bench.measured(used) == Approx(crush / 0.2).epsilon(1e-12));
  cabin.impact = "impact";
  cabin.statistic = Statistic::mean_over_time;
  bench.limits = {cabin};
  CHECK(bench.measured(used) == Approx(crush / 0.2).epsilon(1e-12));
}

TEST_CASE("a structure whose force limit leaves no stroke has no finite stroke used") {
  Bench bench = constant_bench();
  Limit rail = force();
  rail.value.value = 10e3;
  bench.limits = {rail};
  const RunView run = bench.run();
  CHECK_FALSE(measure(limit_on(LimitedQuantity::stroke_used, "block"), run));
  CHECK(*measure(limit_on(LimitedQuantity::reserve, "block"), run) == Approx(-1));
}

namespace {

/// Two lattice layers, 40 kN and 60 kN, as tip and body of one structure.
Bench two_part_bench(double speed, const FirstPeak& first_peak = {}) {
  Bench bench;
  bench.layers = {test_layers::lattice_layer(0, 0.1, 40e3), test_layers::lattice_layer(0.1, 0.2, 60e3)};
  bench.envelope.parts = {{"tip", 0, 0.1}, {"body", 0.1, 0.3}};
  bench.curve = crush_curve(bench.layers, first_peak);
  bench.speed = speed;
  return bench;
}

} // namespace

TEST_CASE("a part keeps no crush until the force reaches its own collapse") {
  const Limit body = limit_on(LimitedQuantity::crush, "block.body");
  const Limit tip = limit_on(LimitedQuantity::crush, "block.tip");
  const double start = 60e3 * test_layers::lattice_shape().ratio[1];
  bool reached = false;
  for (double speed = 0.5; speed < 8; speed += 0.5) {
    Bench bench = two_part_bench(speed);
    const double crush = bench.measured(body);
    const double stop_force = bench.motion.columns.front().stop_force;
    INFO("at " << speed << " m/s the impact stops at " << stop_force << " N");
    CHECK((crush > 0) == (stop_force > start));
    reached = reached || crush > 0;
    CHECK(bench.measured(tip) + crush <= bench.measured(limit_on(LimitedQuantity::crush, "block")));
  }
  CHECK(reached);
}

TEST_CASE("a first peak belongs to the first layer and puts no crush into a stronger part") {
  // The peak of 72 kN is above the body's collapse, yet it comes before the tip has crushed at all.
  Bench bench = two_part_bench(1.9, {1.8, 0.02});
  const Limit body = limit_on(LimitedQuantity::crush, "block.body");
  CHECK(bench.measured(body) == 0);
  CHECK(bench.motion.columns.front().stop_force > 60e3);
  const RunView run = bench.run();
  const StructureView& view = run.structures->front();
  const std::vector<double> shortenings = layers_at_stop(view, bench.motion.columns.front()).shortenings;
  CHECK(std::accumulate(shortenings.begin(), shortenings.end(), 0.0) ==
        Approx(bench.motion.columns.front().peak_crush).epsilon(1e-9));
}

TEST_CASE("mass adds up over structures; thinnest wall and cells across take the smallest and skip those without") {
  Bench bench = constant_bench();
  RunView run = bench.run();
  const std::string second = "second", third = "third";
  bench.structures.push_back({&second, &bench.layers, &bench.envelope, &bench.curve, 1, 1, 3.0, 0.0007, 9.0});
  bench.structures.push_back({&third, &bench.layers, &bench.envelope, &bench.curve, 1, 1, 0.5, 0, 0});
  run.structures = &bench.structures;
  CHECK(*measure(limit_on(LimitedQuantity::mass, "structures"), run) == Approx(5.5));
  CHECK(*measure(limit_on(LimitedQuantity::mass, "second"), run) == Approx(3.0));
  CHECK(*measure(limit_on(LimitedQuantity::wall, "structures"), run) == Approx(0.0007));
  CHECK(*measure(limit_on(LimitedQuantity::cells_across, "structures"), run) == Approx(7));
  CHECK_FALSE(measure(limit_on(LimitedQuantity::wall, "third"), run));
}

TEST_CASE("no filtered peak and no held level passes what greatest_possible says it may be") {
  std::mt19937 random(20240611);
  std::uniform_real_distribution<double> unit(0, 1);
  int bounded = 0;
  for (int n = 0; n < 400; ++n) {
    std::vector<std::pair<double, double>> points{{0, 0}};
    double crush = 0;
    for (int i = 0; i < 12; ++i) {
      crush += 0.001 + 0.05 * unit(random) * unit(random);
      points.emplace_back(crush, 5e3 + 120e3 * unit(random));
    }
    points.emplace_back(crush + 0.01, 2e6);
    Bench bench;
    bench.curve = test_layers::polyline(points, 30e6);
    bench.mass = 50 + 1500 * unit(random);
    bench.speed = 1 + 14 * unit(random);
    const RunView run = bench.run();
    for (const int channel_class : {60, 180, 600, 1000}) {
      const Limit peak = filtered_by(limit_on(LimitedQuantity::acceleration, "body"), channel_class);
      CHECK(*measure(peak, run) <= greatest_possible(peak, run));
    }
    for (const Statistic statistic :
         {Statistic::cumulative_time, Statistic::continuous_time, Statistic::moving_average})
      for (const int channel_class : {0, 60}) {
        const Limit held = filtered_by(over_3_ms(force(statistic)), channel_class);
        CHECK(*measure(held, run) <= greatest_possible(held, run));
        bounded += std::isfinite(greatest_possible(held, run)) ? 1 : 0;
      }
  }
  CHECK(bounded == 6 * 400);
}

TEST_CASE("no signal from 0 to 1, whatever its shape, is filtered above the stated overshoot") {
  // The worst signal is 1 wherever the filter's answer to a single sample is positive.
  for (const int channel_class : {60, 180, 600, 1000}) {
    Signal single{1e-4, std::vector<double>(4001, 0.0)};
    single.values[2000] = 1;
    Signal worst = filtered(single, static_cast<ChannelClass>(channel_class));
    for (double& value : worst.values)
      value = value > 0 ? 1 : 0;
    const double reached = peak(filtered(worst, static_cast<ChannelClass>(channel_class)));
    INFO("class " << channel_class << " reaches " << reached);
    CHECK(reached > 1.06);
    CHECK(reached < greatest_overshoot(channel_class));
  }
  CHECK(greatest_overshoot(0) == 1);
}
