#include "crushwright/coupon_series.hpp"

#include "coupon/conditioned_check.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace crushwright;
using conditioned_check::check_same;
using conditioned_check::says;
using made_record::flat_points;
using made_record::with_after;

namespace {

/// Unload from (strain, stress) along a modulus to a share of the stress, in steps, and back up the same way.
std::vector<std::pair<double, double>> loop(double strain, double stress, double modulus, double down_to,
                                            int steps = 8) {
  std::vector<std::pair<double, double>> points;
  for (int i = 1; i <= 2 * steps; ++i) {
    const double share = i <= steps ? 1 - (1 - down_to) * i / steps : down_to + (1 - down_to) * (i - steps) / steps;
    points.emplace_back(strain - stress * (1 - share) / modulus, stress * share);
  }
  return points;
}

} // namespace

TEST_CASE("an unload loop is cut out and gives the modulus it ran along") {
  const StressStrain without = conditioned(made_record::of(flat_points())).curve;
  const ConditionedTest test =
      conditioned(made_record::of(with_after(flat_points(), 0.10, loop(0.10, 10e6, 800e6, 0.1))));
  check_same(test.curve, without, 1e-12);
  REQUIRE(test.loops.size() == 1);
  CHECK(test.loops[0].gradient == Approx(800e6).epsilon(1e-9));
  CHECK(test.loops[0].strain == Approx(0.10).margin(1e-12));
  CHECK(test.loops[0].depth == Approx(0.9).epsilon(1e-9));
  CHECK(test.loops[0].first_line == 42);
  CHECK(test.loops[0].last_line == 58);
  CHECK(says(test,
             "lines 42 to 58: unload loop at strain 0.1, 90 % of the stress taken off, cut out; elastic gradient "
             "800 MPa"));
}

TEST_CASE("a loop with hysteresis gives the gradient of its axis between 20 and 70 percent of the plateau") {
  // Unloading runs 0.002 strain right of a straight axis of 600 MPa, reloading as far left, half way down.
  std::vector<std::pair<double, double>> points;
  for (int i = 1; i < 40; ++i) {
    const bool down = i <= 20;
    const double share = down ? 1 - i / 20.0 : (i - 20) / 20.0;
    const double bulge = 0.002 * std::sin(share * 3.14159265358979323846);
    points.emplace_back(0.15 - 10e6 * (1 - share) / 600e6 + (down ? -bulge : bulge), 10e6 * share);
  }
  const ConditionedTest test = conditioned(made_record::of(with_after(flat_points(), 0.15, points)));
  REQUIRE(test.loops.size() == 1);
  CHECK(test.loops[0].gradient == Approx(600e6).epsilon(0.01));
}

TEST_CASE("a loop from 70 percent of the plateau, as the standard draws it, closes in the rise") {
  const auto points = with_after(flat_points(20), 0.014, loop(0.014, 7e6, 1.5e9, 0.2 / 0.7));
  const ConditionedTest test = conditioned(made_record::of(points));
  REQUIRE(test.loops.size() == 1);
  CHECK(test.loops[0].gradient == Approx(1.5e9).epsilon(1e-6));
}

TEST_CASE("a saw-tooth of breaking layers is no loop: every tooth stays") {
  std::vector<std::pair<double, double>> points{{0, 0}};
  for (int i = 1; i <= 300; ++i) {
    const double strain = 0.0025 * i;
    const double tooth = std::fmod(strain, 0.05) / 0.05;
    points.emplace_back(strain, strain < 0.02 ? 500e6 * strain : 10e6 * (0.3 + 0.7 * tooth));
  }
  const ConditionedTest test = conditioned(made_record::of(points));
  CHECK(test.loops.empty());
  CHECK(test.curve.strain.size() == points.size());
  CHECK(test.remarks.empty());
}

TEST_CASE("a layer that breaks while the displacement stands still keeps its peak and its valley") {
  // 10 MPa, then two readings of 4 MPa at the same displacement and a touch behind it, then on at 4 MPa.
  auto points = flat_points();
  for (auto& [strain, stress] : points) {
    stress = strain > 0.1001 && strain < 0.15 ? 4e6 : stress;
  }
  points = with_after(points, 0.10, {{0.10, 4e6}, {0.0998, 4e6}});
  const ConditionedTest test = conditioned(made_record::of(points));
  CHECK(test.loops.empty());
  REQUIRE(test.curve.strain.size() == 281);
  CHECK(test.curve.stress[40] == Approx(10e6));
  CHECK(test.curve.stress[41] == Approx(4e6));
  CHECK(says(test, "lines 43 to 44: 2 readings do not go on, strain falling by up to 0.0002; merged"));
}

TEST_CASE("repeated and trembling readings are merged with their mean stress") {
  const auto points = with_after(flat_points(), 0.30, {{0.30, 9.7e6}, {0.29995, 9.4e6}});
  const ConditionedTest test = conditioned(made_record::of(points));
  REQUIRE(test.curve.strain.size() == 281);
  CHECK(test.curve.strain[120] == Approx(0.30));
  CHECK(test.curve.stress[120] == Approx(9.7e6));
}

TEST_CASE("the unloading at the end of a record is cut") {
  auto points = flat_points();
  const double top = points.back().second;
  for (int i = 1; i <= 20; ++i) {
    points.emplace_back(0.70 - 0.001 * i, top * (1 - i / 20.0));
  }
  const ConditionedTest test = conditioned(made_record::of(points));
  CHECK(test.loops.empty());
  CHECK(test.curve.strain.back() == Approx(0.70));
  CHECK(says(test, "lines 283 to 302: the load is taken off at strain 0.7 and the record ends; cut"));
}

TEST_CASE("a load that falls away for good while the displacement goes on is cut, with its flank") {
  auto points = flat_points(4, 0.50);
  points.emplace_back(0.505, 5e6);
  for (int i = 0; i < 10; ++i) {
    points.emplace_back(0.51 + 0.005 * i, 0.01e6 * (i % 2));
  }
  const ConditionedTest test = conditioned(made_record::of(points));
  CHECK(test.curve.strain.back() == Approx(0.50));
  CHECK(says(test, "lines 203 to 213: the load falls away for good at strain 0.5; cut"));
}

TEST_CASE("a stress that drops near zero and recovers is not the end") {
  auto points = flat_points();
  for (auto& [strain, stress] : points) {
    stress = strain > 0.099 && strain < 0.121 ? 0.2e6 : stress;
  }
  CHECK(conditioned(made_record::of(points)).curve.strain.back() == Approx(0.70));
}

TEST_CASE("a loop that comes back with little of its stress is refused by line") {
  auto points = with_after(flat_points(), 0.30,
                           {{0.29, 5e6}, {0.28, 0.0}, {0.27, 0.0}, {0.28, 0.1e6}, {0.29, 0.2e6}, {0.3, 0.5e6}});
  for (auto& [strain, stress] : points) {
    stress = strain > 0.301 && strain < 0.33 ? 0.5e6 : stress;
  }
  CHECK_THROWS_WITH(
      conditioned(made_record::of(points)),
      "made.csv:122: specimen \"A1\": the loop does not close: unloading begins at strain 0.3, and line 129 is back "
      "at "
      "that strain with 5 % of the stress; the displacement has shifted, or two tests stand in one record. Split the "
      "record, or end it at line 122");
}

TEST_CASE("strain that falls while the load stays is refused by line") {
  auto points = flat_points();
  points[100].first = 0.45;
  CHECK_THROWS_WITH(
      conditioned(made_record::of(points)),
      "made.csv:102: specimen \"A1\": strain falls by 19.8 % up to line 183 while the load stays; that is "
      "no unloading. Put the lines in order, or take the wrong ones out");
}
