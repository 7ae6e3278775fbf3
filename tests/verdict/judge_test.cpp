#include "crushwright/verdict.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

Limit at_most(double value, LimitedQuantity quantity = LimitedQuantity::force) {
  Limit limit;
  limit.id = "limit";
  limit.of = "block";
  limit.quantity = quantity;
  limit.value.value = value;
  return limit;
}

Limit at_least(double value, LimitedQuantity quantity = LimitedQuantity::reserve) {
  Limit limit = at_most(value, quantity);
  limit.at_most = false;
  return limit;
}

SideValues sides(double weak, double nominal, double strong) {
  SideValues values;
  values.weak = weak;
  values.nominal = nominal;
  values.strong = strong;
  return values;
}

Check judged(const Limit& limit, const SideValues& values) {
  return judge(limit, values, values);
}

} // namespace

TEST_CASE("a limit passes only when it holds on all three sides") {
  CHECK(judged(at_most(100), sides(80, 90, 100)).word == Word::pass);
  CHECK(judged(at_most(100), sides(80, 90, 100.0001)).word == Word::open);
  CHECK(judged(at_most(100), sides(100.0001, 90, 80)).word == Word::open);
  CHECK(judged(at_most(100), sides(80, 100.0001, 80)).word == Word::fail);
  CHECK(judged(at_most(100), sides(101, 102, 103)).word == Word::fail);
}

TEST_CASE("the margin is what is left of the limit on the side that hurts, over the limit") {
  const Check most = judged(at_most(200), sides(150, 160, 190));
  CHECK(most.worst_side == Side::strong);
  CHECK(most.worst_value == 190);
  CHECK(most.margin == Approx(0.05).epsilon(1e-12));
  CHECK(most.nominal_margin == Approx(0.20).epsilon(1e-12));
  const Check least = judged(at_least(0.10), sides(0.12, 0.30, 0.25));
  CHECK(least.word == Word::pass);
  CHECK(least.worst_side == Side::weak);
  CHECK(least.margin == Approx(0.2).epsilon(1e-12));
  CHECK(judged(at_least(0.10), sides(0.09, 0.30, 0.25)).word == Word::open);
  CHECK(judged(at_least(0.10), sides(0.09, 0.05, 0.25)).word == Word::fail);
}

TEST_CASE("the margin of a limit of zero is the difference itself, and its sentence has a unit") {
  const Check crush = judged(at_most(0, LimitedQuantity::crush), sides(0, 0, 0));
  CHECK(crush.word == Word::pass);
  CHECK(crush.margin == 0);
  const Check missed = judged(at_most(0, LimitedQuantity::crush), sides(0.004, 0, 0));
  CHECK(missed.word == Word::open);
  CHECK(missed.margin == Approx(-0.004).epsilon(1e-12));
  CHECK(missed.note == "holds at nominal, missed by 4 mm on the weak side");
  const Check reserve = judged(at_least(0), sides(0.1, 0.2, 0.3));
  CHECK(reserve.word == Word::pass);
  CHECK(reserve.margin == Approx(0.1).epsilon(1e-12));
  CHECK(judged(at_least(0), sides(-0.1, 0.2, 0.3)).word == Word::open);
}

TEST_CASE("a value that cannot be had leaves the limit open and gives the reason") {
  SideValues values = sides(1, 1, 1);
  values.strong.reset();
  values.reason = "no lattice";
  const Check check = judged(at_most(100), values);
  CHECK(check.word == Word::open);
  CHECK(check.note == "no lattice");
  CHECK_FALSE(check.stacked_holds);
}

TEST_CASE("stacked values are shown and do not decide") {
  const Check check = judge(at_most(100), sides(80, 90, 95), sides(70, 90, 120));
  CHECK(check.word == Word::pass);
  CHECK_FALSE(check.stacked_holds);
  CHECK(judge(at_most(100), sides(80, 90, 95), sides(70, 90, 100)).stacked_holds);
}

TEST_CASE("a note names bottoming only where it is the worst side that bottoms out") {
  SideValues values = sides(120, 90, 80);
  values.strong_bottomed = true;
  CHECK(judged(at_most(100), values).note == "holds at nominal, missed by 20.0 % on the weak side");
  values.weak_bottomed = true;
  CHECK(judged(at_most(100), values).note ==
        "holds at nominal, missed by 20.0 % on the weak side, where the structure bottoms out");
}

TEST_CASE("the worst word makes the verdict and the smallest margin among its checks governs") {
  const Check passing = judged(at_most(100), sides(90, 99, 90));
  const Check open_little = judged(at_most(100), sides(101, 90, 90));
  const Check open_much = judged(at_most(100), sides(150, 90, 90));
  const Check failing = judged(at_most(100), sides(90, 102, 90));
  CHECK(conclude({passing}).word == Word::pass);
  const Verdict open = conclude({open_little, passing, open_much});
  CHECK(open.word == Word::open);
  CHECK(open.governing == 2);
  // A fail by 2 % governs before an open by 50 %.
  const Verdict fail = conclude({open_much, failing, passing});
  CHECK(fail.word == Word::fail);
  CHECK(fail.governing == 1);
}

TEST_CASE("of equal margins the first in the case governs") {
  const Check check = judged(at_most(100), sides(90, 90, 90));
  CHECK(conclude({check, check, check}).governing == 0);
}

TEST_CASE("a case without limits is open, for there is nothing to pass") {
  CHECK(conclude({}).word == Word::open);
}

TEST_CASE("a limit is described by statistic, quantity, subject, filter and window") {
  Limit limit = at_most(1, LimitedQuantity::acceleration);
  limit.of = "car";
  CHECK(describe(limit) == "peak acceleration of car");
  limit.channel_class = 60;
  limit.window = {WindowKind::first_crush, 0.1};
  CHECK(describe(limit) == "peak acceleration of car, class 60, first 100 mm");
  limit.statistic = Statistic::cumulative_time;
  limit.statistic_time = 0.003;
  limit.channel_class = 0;
  limit.window = {};
  CHECK(describe(limit) == "acceleration held for 3 ms in all of car");
  limit.statistic = Statistic::continuous_time;
  CHECK(describe(limit) == "acceleration held for 3 ms without break of car");
  limit.statistic = Statistic::moving_average;
  CHECK(describe(limit) == "greatest mean acceleration over any 3 ms of car");
  limit.statistic = Statistic::occupant_load;
  CHECK(describe(limit) == "occupant load of car");
  limit.statistic = Statistic::pulse_index;
  CHECK(describe(limit) == "pulse index of car");
  limit = at_most(1, LimitedQuantity::force);
  limit.statistic = Statistic::mean_over_distance;
  limit.window = {WindowKind::first_energy, 5000};
  CHECK(describe(limit) == "mean over distance force of block, first 5 kJ");
  CHECK(describe(at_most(1, LimitedQuantity::wall)) == "thinnest strut or wall of block");
  CHECK(describe(at_most(1, LimitedQuantity::reserve)) == "energy reserve of block");
  CHECK(describe(at_most(1, LimitedQuantity::stroke_used)) == "stroke used of block");
  CHECK(describe(at_most(1, LimitedQuantity::cells_across)) == "cells across of block");
  limit = at_most(0.3, LimitedQuantity::crush);
  CHECK(describe(limit) == "crush of block");
  limit.of = "block.body";
  CHECK(describe(limit) == "collapse of block.body");
}
