#include "sample_cases.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_cases;

namespace {

const std::string force_limit = "  force: {of: block, quantity: force, at_most: 250 kN}\n";
const std::string shares_50 = "    share: {one: 50 %, two: 50 %}\n";

std::string car_onto_wall(const std::string& mass, const std::string& speed) {
  return fmt::format(R"(  hit:
    striker: {{id: wall, held: true}}
    struck: {{id: car, mass: {}}}
    closing_speed: {}
)",
                     mass, speed);
}

/// A structure with a long flat plateau, whose crush force hardly depends on the energy.
const std::string flat = block("block");

} // namespace

TEST_CASE("the weak side carries less and the strong side more than the nominal, at any crush") {
  const Estimate result = estimate_of(cone("cone", "1.7 mm", skin), drop());
  const StructureCurves& curves = result.deciding.curves.front();
  CHECK(curves.weak_factor < 1);
  CHECK(curves.strong_factor > 1);
  // Up to the efficiency strain, where early and late densification part.
  for (double crush = 0.005; crush < 0.15; crush += 0.005) {
    CHECK(curves.weak.force_at(crush) <= curves.nominal.force_at(crush));
    CHECK(curves.nominal.force_at(crush) <= curves.strong.force_at(crush));
    CHECK(curves.stacked_weak.force_at(crush) <= curves.weak.force_at(crush));
    CHECK(curves.strong.force_at(crush) <= curves.stacked_strong.force_at(crush));
  }
}

TEST_CASE("the sides of a lattice alone differ from nominal by the factor worked out by hand") {
  // Handbook priors: law 12 %, build 8 %, no skin; 95 % one-sided; rate 1.00 to 1.08.
  const double law = std::sqrt(std::log(1 + 0.0144)), build = std::sqrt(std::log(1 + 0.0064));
  const double spread = std::exp(1.6448536269514722 * std::hypot(law, build));
  const StructureCurves curves = estimate_of(flat, drop()).deciding.curves.front();
  CHECK(curves.weak_factor == Approx(1 / spread).epsilon(1e-12));
  CHECK(curves.strong_factor == Approx(1.08 * spread).epsilon(1e-12));
}

TEST_CASE("a structure and its mirror image, alike struck, come out alike") {
  const std::string pair = cone("left", "1.7 mm", skin + "    at: {y: 400 mm, z: 300 mm}\n    mirrored_as: right\n");
  const Estimate result = estimate_of(pair, drop("600 kg") + "    share: {left: 50 %, right: 50 %}\n");
  for (std::size_t side = 0; side < 5; ++side) {
    CHECK(outcome(result, side, 0).peak_crush == outcome(result, side, 1).peak_crush);
    CHECK(outcome(result, side, 0).peak_force == outcome(result, side, 1).peak_force);
    CHECK(outcome(result, side, 0).reserve == outcome(result, side, 1).reserve);
  }
}

TEST_CASE("shares of 60 and 40 % are shares of the energy") {
  const Estimate result = estimate_of(block("one") + block("two"), drop() + "    share: {one: 60 %, two: 40 %}\n");
  CHECK(outcome(result, 1, 0).energy == Approx(0.6 * 7350).epsilon(1e-9));
  CHECK(outcome(result, 1, 1).energy == Approx(0.4 * 7350).epsilon(1e-9));
}

TEST_CASE("two equal structures at 50/50 are one with twice the force") {
  const Estimate two = estimate_of(block("one") + block("two"), drop() + shares_50);
  const Estimate one = estimate_of(block("block", "200 mm"), drop());
  for (std::size_t side = 0; side < 5; ++side) {
    CHECK(outcome(two, side).peak_crush == Approx(outcome(one, side).peak_crush).epsilon(1e-12));
    CHECK(2 * outcome(two, side).peak_force == Approx(outcome(one, side).peak_force).epsilon(1e-12));
    CHECK(two.deciding.impacts[0].sides[side].peak_total_force ==
          Approx(one.deciding.impacts[0].sides[side].peak_total_force).epsilon(1e-12));
    CHECK(two.deciding.impacts[0].sides[side].stop_time ==
          Approx(one.deciding.impacts[0].sides[side].stop_time).epsilon(1e-12));
  }
}

TEST_CASE("a heavier or faster end of a tolerance raises crush on the sides and not at nominal") {
  const std::string limits = "  crush: {of: block, quantity: crush, at_most: 200 mm}\n";
  const Check exact = check_named(estimate_of(flat, drop(), limits).deciding, "crush");
  const std::string heavy_tolerance = "{value: 300 kg, low: 280 kg, high: 330 kg}";
  const std::string fast_tolerance = "{value: 7 m/s, low: 6.8 m/s, high: 7.2 m/s}";
  const Check heavy = check_named(estimate_of(flat, drop(heavy_tolerance), limits).deciding, "crush");
  const Check fast = check_named(estimate_of(flat, drop("300 kg", fast_tolerance), limits).deciding, "crush");
  CHECK(*heavy.combined.nominal == *exact.combined.nominal);
  CHECK(*fast.combined.nominal == *exact.combined.nominal);
  CHECK(*heavy.combined.weak ==
        *check_named(estimate_of(flat, drop("330 kg"), limits).deciding, "crush").combined.weak);
  CHECK(*fast.combined.weak ==
        *check_named(estimate_of(flat, drop("300 kg", "7.2 m/s"), limits).deciding, "crush").combined.weak);
  CHECK(*heavy.combined.weak > *exact.combined.weak);
}

TEST_CASE("an acceleration limit also meets the light end of its body's mass, the same force on less mass") {
  const std::string limits = "  peak: {of: car, quantity: acceleration, at_most: 100 g}\n";
  const auto strong = [&](const std::string& mass) {
    return *check_named(estimate_of(flat, car_onto_wall(mass, "7 m/s"), limits).deciding, "peak").combined.strong;
  };
  const double with_tolerance = strong("{value: 300 kg, low: 250 kg, high: 310 kg}");
  CHECK(with_tolerance == strong("250 kg"));
  CHECK(with_tolerance > strong("310 kg"));
  // A held limit on crush in the same impact still meets the heavy end.
  const std::string both = limits + "  crush: {of: block, quantity: crush, at_most: 200 mm}\n";
  const auto crush = [&](const std::string& mass) {
    return *check_named(estimate_of(flat, car_onto_wall(mass, "7 m/s"), both).deciding, "crush").combined.weak;
  };
  CHECK(crush("{value: 300 kg, low: 250 kg, high: 310 kg}") == crush("310 kg"));
}

TEST_CASE("what must be reached is judged at the light and slow end") {
  const std::string limits = "  energy: {of: block, quantity: energy, at_least: 5 kJ}\n";
  const std::string tolerant =
      drop("{value: 300 kg, low: 200 kg, high: 310 kg}", "{value: 7 m/s, low: 6 m/s, high: 7 m/s}");
  const Check check = check_named(estimate_of(flat, tolerant, limits).deciding, "energy");
  CHECK(*check.combined.nominal == Approx(7350).epsilon(1e-9));
  CHECK(*check.combined.weak == Approx(0.5 * 200 * 36).epsilon(1e-9));
  CHECK(check.word == Word::open);
}

TEST_CASE("a mean that a first peak raises for a short crush is judged at the slow end too") {
  // The peak of a skin without a trigger dies out over the first millimetres; a slow hit sees little else.
  const std::string untriggered = "    skin: {material: AlSi10Mg-stress-relieved, thickness: 1.2 mm}\n";
  const std::string limits = "  mean: {of: cone, quantity: force, statistic: mean_over_distance, at_most: 900 kN}\n";
  const auto mean = [&](const std::string& speed) {
    return *check_named(estimate_of(cone("cone", "1.7 mm", untriggered), drop("300 kg", speed), limits).deciding,
                        "mean")
                .combined.strong;
  };
  const double slow = mean("5 m/s"), fast = mean("7 m/s");
  CHECK(slow > fast);
  CHECK(mean("{value: 7 m/s, low: 5 m/s, high: 7 m/s}") == slow);
}

TEST_CASE("a level held inside a window of crush is judged at the slow end too, which stays in it longer") {
  // Fast, the first 20 mm are passed in 20 mm / 7 m/s = 2.9 ms: nothing can be held there for 3.5 ms.
  const auto held = [&](const std::string& speed, const std::string& statistic) {
    const std::string limits = "  held: {of: block, quantity: force, statistic: " + statistic +
                               ", time: 3.5 ms, first_crush: 20 mm, at_most: 900 kN}\n";
    return *check_named(estimate_of(flat, drop("300 kg", speed), limits).deciding, "held").combined.strong;
  };
  for (const std::string statistic : {"cumulative_time", "continuous_time"}) {
    const double slow = held("5 m/s", statistic), fast = held("7 m/s", statistic);
    CHECK(slow > fast);
    CHECK(held("{value: 7 m/s, low: 5 m/s, high: 7 m/s}", statistic) == slow);
  }
  // A mean over a while: at least what it is at either end.
  const double slow = held("5 m/s", "moving_average"), fast = held("7 m/s", "moving_average");
  CHECK(held("{value: 7 m/s, low: 5 m/s, high: 7 m/s}", "moving_average") == std::max(slow, fast));
}

TEST_CASE("10 % more energy is the same impact at √1.1 of the speed") {
  const Estimate result = estimate_of(flat, drop(), force_limit);
  const MoreEnergy& more = result.deciding.impacts.front().more_energy;
  CHECK(more.factor == 1.10);
  CHECK(more.nominal.structures.front().energy == Approx(1.1 * 7350).epsilon(1e-9));
  const Estimate faster =
      estimate_of(flat, drop("300 kg", fmt::format("{:.17g} m/s", 7 * std::sqrt(1.1))), force_limit);
  CHECK(more.nominal.structures.front().peak_crush == Approx(outcome(faster).peak_crush).epsilon(1e-12));
  CHECK(more.word == Word::pass);
}

TEST_CASE("what more energy breaks first is named") {
  const std::string stroke = "  stroke: {impact: drop, quantity: stroke_used, at_most: 58 %}\n";
  const Estimate result = estimate_of(flat, drop(), force_limit + stroke);
  CHECK(check_named(result.deciding, "stroke").word == Word::pass);
  const MoreEnergy& more = result.deciding.impacts.front().more_energy;
  CHECK(more.word == Word::open);
  CHECK(more.first_limit_missed == "stroke");
}

TEST_CASE("a side of a check is the worst over early and late densification") {
  const std::string limits = "  stroke: {impact: drop, quantity: stroke_used, at_most: 100 %}\n"
                             "  crush: {impact: drop, of: cone, quantity: crush, at_most: 300 mm}\n";
  const std::string set = "scatter:\n  decide_with: one\n  sets:\n    one: {law: 0 %, build: 0 %, skin: 0 %, "
                          "interaction: 1, efficiency_strain: 8 %}\n";
  const Estimate result = estimate_of(cone("cone"), drop("1400 kg"), limits, set);
  const double late = std::exp(1.6448536269514722 * std::sqrt(std::log(1 + 0.0064)));
  const Check& stroke = check_named(result.deciding, "stroke");
  const Check& crush = check_named(result.deciding, "crush");
  // Earlier densification uses more of the stroke, later densification crushes further in length.
  CHECK(*stroke.combined.weak > *stroke.combined.nominal);
  CHECK(*crush.combined.weak > *crush.combined.nominal);
  CHECK(result.deciding.curves.front().weak.bottoming_crush * late ==
        Approx(result.deciding.curves.front().nominal.bottoming_crush).epsilon(1e-12));
}

TEST_CASE("an open limit names the measurement that closes it") {
  // The law alone scatters: 30 %, no one else.
  const std::string set = "scatter:\n  decide_with: one\n  sets:\n    one: {law: 30 %, build: 0.1 %, skin: 0 %, "
                          "interaction: 1, efficiency_strain: 0 %}\n";
  const std::string limits = "  force: {of: block, quantity: force, at_most: 180 kN}\n";
  const Estimate result = estimate_of(flat, drop(), limits, set);
  const Check& check = check_named(result.deciding, "force");
  REQUIRE(check.word == Word::open);
  INFO(check.note);
  CHECK(check.note.find("would close if confirmed at the nominal value: compression tests of the lattice") !=
        std::string::npos);
  CHECK(check.note.find("then") == std::string::npos);
}

TEST_CASE("a wide speed tolerance is named where it is what opens the limit") {
  const std::string set = "scatter:\n  decide_with: one\n  sets:\n    one: {law: 1 %, build: 1 %, skin: 0 %, "
                          "interaction: 1, efficiency_strain: 1 %}\n";
  const std::string limits = "  stroke: {quantity: stroke_used, at_most: 50 %}\n";
  const Estimate result = estimate_of(flat, drop("300 kg", "{value: 7 m/s, low: 7 m/s, high: 8 m/s}"), limits, set);
  const Check& check = check_named(result.deciding, "stroke");
  REQUIRE(check.word == Word::open);
  INFO(check.note);
  CHECK(check.note.find("narrower masses and speed of the impact") != std::string::npos);
}

TEST_CASE("one scatter set decides and the others are judged beside it") {
  const std::string sets = "scatter:\n  decide_with: tested\n  sets:\n    tested: {law: 2 %, build: 2 %}\n";
  const std::string limits = "  force: {of: block, quantity: force, at_most: 170 kN}\n";
  const Estimate result = estimate_of(flat, drop(), limits, sets);
  CHECK(result.deciding.scatter_set == "tested");
  REQUIRE(result.others.size() == 1);
  CHECK(result.others.front().scatter_set == "handbook");
  CHECK(result.deciding.verdict.word == Word::pass);
  CHECK(result.others.front().verdict.word == Word::open);
}

TEST_CASE("a case without limits stays open and says why") {
  const Estimate result = estimate_of(flat, drop());
  CHECK(result.deciding.verdict.word == Word::open);
  CHECK(std::count(result.warnings.begin(), result.warnings.end(),
                   "The case states no limit, so there is nothing to pass: the verdict stays open.") == 1);
}

TEST_CASE("the ledger of every nominal impact closes to 1e-6 of its energy") {
  for (const char* name :
       {"honeycomb_block", "twin_rear_cones", "student_attenuator", "single_seater_rear", "outlet_flanks"})
    for (const ImpactOutcome& impact : estimate(shipped_case(name), catalogue()).deciding.impacts)
      CHECK(std::abs(impact.motion.ledger.residual) < 1e-6 * impact.motion.ledger.input);
}

TEST_CASE("two estimates of one case are the same to the last digit, and so with a catalogue read anew") {
  const CrashCase crash_case = shipped_case("twin_rear_cones");
  const Catalogue anew({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
  const Estimate first = estimate(crash_case, catalogue()), second = estimate(crash_case, anew);
  REQUIRE(first.deciding.verdict.checks.size() == second.deciding.verdict.checks.size());
  for (std::size_t i = 0; i < first.deciding.verdict.checks.size(); ++i) {
    CHECK(first.deciding.verdict.checks[i].margin == second.deciding.verdict.checks[i].margin);
    CHECK(first.deciding.verdict.checks[i].note == second.deciding.verdict.checks[i].note);
  }
  CHECK(first.structures.front().curve.force == second.structures.front().curve.force);
  CHECK(first.structures.front().curve.crush == second.structures.front().curve.crush);
  CHECK(first.warnings == second.warnings);
}
