#include "crash_case/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using namespace sample_case;

TEST_CASE("a limit names an impact of the case") {
  CHECK(message(with_limit("{impact: ful, of: car, quantity: acceleration, at_most: 30 g}")) ==
        "boxes.yaml:33:18: limits.peak.impact cannot be `ful`\n"
        "   33 |   peak: {impact: ful, of: car, quantity: acceleration, at...\n"
        "      |                  ^\n"
        "   Did you mean `full`? Write one of: full, one_side.");
}

TEST_CASE("a limit names a quantity that can be limited") {
  CHECK(message(with_limit("{of: car, quantity: accelaration, at_most: 30 g}")) ==
        "boxes.yaml:33:29: limits.peak.quantity cannot be `accelaration`\n"
        "   33 |   peak: {of: car, quantity: accelaration, at_most: 30 g}\n"
        "      |                             ^\n"
        "   Did you mean `acceleration`? Write one of: acceleration, force, crush, energy, mass, wall, cells_across, "
        "stroke_used, reserve, clearance, clearance_after_crush, ramp_angle, build_height, build_time, build_cost, "
        "build_pieces, unsupported_share, unsupported_span, overhang_area, escape_opening, speed_change, yaw_moment, "
        "bearing_share, attachment_crush, section_use, bolt_use, stability_reserve, critical_angle, "
        "bending_frequency, service_use, fatigue_damage.");
}

TEST_CASE("a limit on acceleration names a body that is free") {
  CHECK(message(with_limit("{quantity: acceleration, at_most: 30 g}")) ==
        "boxes.yaml:33:3: limits.peak: a limit on acceleration needs `of`, the body that it is for\n"
        "   33 |   peak: {quantity: acceleration, at_most: ...\n"
        "      |   ^\n"
        "   Write one of: car, trolley.");
  CHECK(message(with_limit("{impact: full, of: cart, quantity: acceleration, at_most: 30 g}")) ==
        "boxes.yaml:33:28: limits.peak.of: acceleration of `cart` cannot be limited in the impact `full`\n"
        "   33 |   peak: {impact: full, of: cart, quantity: acceleration, at_most: 3...\n"
        "      |                            ^\n"
        "   Did you mean `car`? Write one of: car.");
  CHECK(message(with_limit("{impact: full, of: wall, quantity: acceleration, at_most: 30 g}")) ==
        "boxes.yaml:33:28: limits.peak.of: `wall` is held in the impact `full`: it does not move\n"
        "   33 |   peak: {impact: full, of: wall, quantity: acceleration, at_most: 3...\n"
        "      |                            ^\n"
        "   Limit the acceleration of a body that is free, or the force of a structure. Write one of: car.");
  CHECK(message(with_limit("{of: wall, quantity: acceleration, at_most: 30 g}")) ==
        "boxes.yaml:33:14: limits.peak.of: `wall` is held in the impact `full`: it does not move\n"
        "   33 |   peak: {of: wall, quantity: acceleration, at_most: 3...\n"
        "      |              ^\n"
        "   Limit the acceleration of a body that is free, or the force of a structure. Write one of: car, trolley.");
}

TEST_CASE("a limit names a structure that takes part") {
  CHECK(message(with_limit("{impact: one_side, of: right, quantity: force, at_most: 30 kN}")) ==
        "boxes.yaml:33:32: limits.peak.of: `right` takes no part in the impact `one_side`\n"
        "   33 |   peak: {impact: one_side, of: right, quantity: force, at_most: 30 kN}\n"
        "      |                                ^\n"
        "   Write one of: left, structures.");
}

TEST_CASE("only crush can be limited for a part") {
  CHECK(message(with_limit("{of: left.tp, quantity: crush, at_most: 3 mm}")) ==
        "boxes.yaml:33:14: limits.peak.of: crush of `left.tp` cannot be limited\n"
        "   33 |   peak: {of: left.tp, quantity: crush, at_most: 3 mm}\n"
        "      |              ^\n"
        "   Did you mean `left.tip`? Write one of: left, right, left.tip, right.tip, structures.");
  CHECK(message(with_limit("{of: left.tip, quantity: force, at_most: 30 kN}")) ==
        "boxes.yaml:33:14: limits.peak.of: force of `left.tip` cannot be limited\n"
        "   33 |   peak: {of: left.tip, quantity: force, at_most: 30 k...\n"
        "      |              ^\n"
        "   Write one of: left, right, structures.");
}

TEST_CASE("a level held in all needs its time, and only that") {
  CHECK(message(with_limit("{of: car, quantity: acceleration, statistic: cumulative_time, at_most: 30 g}")) ==
        "boxes.yaml:33:54: limits.peak.statistic: cumulative_time needs `time`, how long in all the level is held\n"
        "   33 |   peak: {of: car, quantity: acceleration, statistic: cumulative_time, at_most: 30 g}\n"
        "      |                                                      ^\n"
        "   Add for instance `time: 3 ms`.");
  CHECK(message(with_limit("{of: car, quantity: acceleration, time: 3 ms, at_most: 30 g}")) ==
        "boxes.yaml:33:49: limits.peak.time: `time` belongs to the statistics cumulative_time, "
        "continuous_time and moving_average\n"
        "   33 |   peak: {of: car, quantity: acceleration, time: 3 ms, at_most: 30 g}\n"
        "      |                                                 ^\n"
        "   Delete the line, or set for instance `statistic: cumulative_time`.");
  CHECK(message(with_limit("{of: car, quantity: acceleration, statistic: continuous_time, at_most: 30 g}")) ==
        "boxes.yaml:33:54: limits.peak.statistic: continuous_time needs `time`, how long the level is held without "
        "break\n"
        "   33 |   peak: {of: car, quantity: acceleration, statistic: continuous_time, at_most: 30 g}\n"
        "      |                                                      ^\n"
        "   Add for instance `time: 3 ms`.");
  CHECK(message(with_limit("{of: car, quantity: acceleration, statistic: moving_average, at_most: 30 g}")) ==
        "boxes.yaml:33:54: limits.peak.statistic: moving_average needs `time`, the width of the window\n"
        "   33 |   peak: {of: car, quantity: acceleration, statistic: moving_average, at_most: 30 g}\n"
        "      |                                                      ^\n"
        "   Add for instance `time: 3 ms`.");
}

TEST_CASE("what an occupant sees is of a body's acceleration over the whole impact, and has no time") {
  CHECK(message(with_limit("{of: left, quantity: force, statistic: pulse_index, at_most: 30 kN}")) ==
        "boxes.yaml:33:48: limits.peak.statistic: pulse_index is of the acceleration of a body, not of a force\n"
        "   33 |   peak: {of: left, quantity: force, statistic: pulse_index, at_most: 30 kN}\n"
        "      |                                                ^\n"
        "   Set `quantity: acceleration` and `of:` to a body that is free, or take another statistic.");
  for (const std::string statistic : {"occupant_load", "pulse_index"}) {
    const std::string begin = "{of: car, quantity: acceleration, statistic: " + statistic + ", at_most: 30 g";
    const auto said = [&](const std::string& more) { return message(with_limit(begin + more + "}")); };
    using Catch::Matchers::Contains;
    CHECK_THAT(said(", time: 3 ms"), Contains("`time` belongs to the statistics cumulative_time, continuous_time and "
                                              "moving_average"));
    CHECK_THAT(said(", first_crush: 10 mm"),
               Contains("limits.peak.first_crush: " + statistic + " looks at the whole impact"));
    CHECK_THAT(said(", first_energy: 1 kJ"),
               Contains("limits.peak.first_energy: " + statistic + " looks at the whole impact"));
    CHECK(said(", filter: class_180") == "no error");
  }
}

TEST_CASE("every statistic is read, with its time where it has one") {
  const auto limit = [](const std::string& words) {
    return read(with_limit("{of: trolley, quantity: acceleration, at_most: 30 g, " + words + "}")).limits.front();
  };
  CHECK(limit("statistic: continuous_time, time: 3 ms").statistic == Statistic::continuous_time);
  CHECK(limit("statistic: continuous_time, time: 3 ms").statistic_time == Approx(0.003));
  CHECK(limit("statistic: moving_average, time: 10 ms").statistic == Statistic::moving_average);
  CHECK(limit("statistic: moving_average, time: 10 ms").statistic_time == Approx(0.01));
  CHECK(limit("statistic: occupant_load").statistic == Statistic::occupant_load);
  CHECK(limit("statistic: pulse_index, filter: class_60").statistic == Statistic::pulse_index);
  CHECK(limit("statistic: pulse_index, filter: class_60").channel_class == 60);
}

TEST_CASE("what has one value a run has no statistic, window or filter") {
  CHECK(message(with_limit("{quantity: mass, statistic: peak, at_most: 3 kg}")) ==
        "boxes.yaml:33:37: limits.peak.statistic: mass has one value a run, no statistic\n"
        "   33 |   peak: {quantity: mass, statistic: peak, at_most: 3 kg}\n"
        "      |                                     ^\n"
        "   Delete the line.");
  CHECK(message(with_limit("{quantity: crush, at_most: 30 mm, first_crush: 10 mm}")) ==
        "boxes.yaml:33:56: limits.peak.first_crush: crush is judged over the whole impact\n"
        "   33 |   peak: {quantity: crush, at_most: 30 mm, first_crush: 10 mm}\n"
        "      |                                                        ^\n"
        "   Delete the line.");
  CHECK(message(with_limit("{quantity: crush, at_most: 30 mm, filter: class_60}")) ==
        "boxes.yaml:33:51: limits.peak.filter: a filter belongs to an acceleration or force over time\n"
        "   33 |   peak: {quantity: crush, at_most: 30 mm, filter: class_60}\n"
        "      |                                                   ^\n"
        "   Delete the line.");
}

TEST_CASE("mass does not depend on an impact") {
  CHECK(message(with_limit("{impact: full, quantity: mass, at_most: 3 kg}")) ==
        "boxes.yaml:33:18: limits.peak.impact: mass does not depend on an impact\n"
        "   33 |   peak: {impact: full, quantity: mass, at_most: 3 kg}\n"
        "      |                  ^\n"
        "   Delete the line.");
}

TEST_CASE("a limit has one window") {
  CHECK(message(
            with_limit("{of: car, quantity: acceleration, at_most: 30 g, first_crush: 10 mm, first_energy: 1 kJ}")) ==
        "boxes.yaml:33:92: limits.peak.first_energy: a limit has one window, first_crush or first_energy\n"
        "   33 | ...ntity: acceleration, at_most: 30 g, first_crush: 10 mm, first_energy: 1 kJ}\n"
        "      |                                                                          ^\n"
        "   Delete one of the two.");
}

TEST_CASE("a filter is one of the channel classes and works over time") {
  CHECK(message(with_limit("{of: car, quantity: acceleration, at_most: 30 g, filter: class_61}")) ==
        "boxes.yaml:33:66: limits.peak.filter cannot be `class_61`\n"
        "   33 |   peak: {of: car, quantity: acceleration, at_most: 30 g, filter: class_61}\n"
        "      |                                                                  ^\n"
        "   Did you mean `class_60`? Write one of: none, class_60, class_180, class_600, class_1000.");
  CHECK(message(with_limit(
            "{of: car, quantity: acceleration, statistic: mean_over_distance, at_most: 30 g, filter: class_60}")) ==
        "boxes.yaml:33:97: limits.peak.filter: a filter belongs to an acceleration or force over time\n"
        "   33 | ...: acceleration, statistic: mean_over_distance, at_most: 30 g, filter: class_60}\n"
        "      |                                                                          ^\n"
        "   Delete the line.");
}

TEST_CASE("a limit has one value of the dimension of its quantity, without a spread") {
  CHECK(message(with_limit("{of: car, quantity: acceleration}")) ==
        "boxes.yaml:33:3: limits.peak: the limit has no value\n"
        "   33 |   peak: {of: car, quantity: acceleration}\n"
        "      |   ^\n"
        "   Add `at_most:` or `at_least:` with a value and its unit.");
  CHECK(message(with_limit("{of: car, quantity: acceleration, at_most: 30 g, at_least: 1 g}")) ==
        "boxes.yaml:33:68: limits.peak.at_least: a limit has one bound, at_most or at_least\n"
        "   33 |   peak: {of: car, quantity: acceleration, at_most: 30 g, at_least: 1 g}\n"
        "      |                                                                    ^\n"
        "   Delete one of the two.");
  CHECK(message(with_limit("{of: car, quantity: acceleration, at_most: 30 kN}")) ==
        "boxes.yaml:33:52: limits.peak.at_most: 30 kN is a force; an acceleration was expected, for instance 20 g\n"
        "   33 |   peak: {of: car, quantity: acceleration, at_most: 30 kN}\n"
        "      |                                                    ^\n"
        "   Units of an acceleration: g, m/s^2.");
  CHECK(message(with_limit("{of: car, quantity: acceleration, at_most: {value: 30 g, low: 28 g}}")) ==
        "boxes.yaml:33:43: limits.peak.at_most: a limit is one value; it carries a spread, which nothing would use\n"
        "   33 |   peak: {of: car, quantity: acceleration, at_most: {value: 30 g, low: 28 g}}\n"
        "      |                                           ^\n"
        "   Give the value that must hold, alone or with its source.");
}

TEST_CASE("a limit from a regulation or series rule says which") {
  CHECK(message(with_limit("{of: car, quantity: acceleration, at_most: 30 g, status: regulation}")) ==
        "boxes.yaml:33:66: limits.peak.status: a limit from a regulation or series rule must say which\n"
        "   33 |   peak: {of: car, quantity: acceleration, at_most: 30 g, status: regulation}\n"
        "      |                                                                  ^\n"
        "   Add `requirement: {identifier: ..., edition: ..., clause: ...}`, or set `status: internal`.");
  CHECK(message(with_limit(
            "{of: car, quantity: acceleration, at_most: 30 g, status: series_rule, requirement: {identifier: A}}")) ==
        "boxes.yaml:33:66: limits.peak.status: a limit from a regulation or series rule must say which\n"
        "   33 |   peak: {of: car, quantity: acceleration, at_most: 30 g, status: series_rule, requirement: "
        "{identifier: A...\n"
        "      |                                                                  ^\n"
        "   Add `requirement: {identifier: ..., edition: ..., clause: ...}`, or set `status: internal`.");
}

TEST_CASE("a limit that names no impact holds in every impact that has what it is about") {
  const auto limits = [](const std::string& limit) { return read(with_limit(limit)).limits; };
  CHECK(limits("{of: car, quantity: acceleration, at_most: 30 g}").size() == 2);
  CHECK(limits("{of: trolley, quantity: acceleration, at_most: 30 g}").size() == 1);
  const auto right = limits("{of: right, quantity: force, at_most: 30 kN}");
  REQUIRE(right.size() == 1);
  CHECK(right.front().impact == "full");
  CHECK(right.front().value.value == Approx(30e3));
  CHECK(limits("{quantity: mass, at_most: 3 kg}").front().impact.empty());
}

TEST_CASE("a limit is read with its statistic, window, filter and requirement") {
  const Limit limit = read(with_limit("{impact: full, of: car, quantity: acceleration, statistic: cumulative_time, "
                                      "time: 3 ms, first_crush: 100 mm, filter: class_180, at_most: 2 g, status: "
                                      "regulation, requirement: {identifier: OCC-1, edition: 03, clause: 5.2.1}}"))
                          .limits.front();
  CHECK(limit.id == "peak");
  CHECK(limit.statistic == Statistic::cumulative_time);
  CHECK(limit.statistic_time == Approx(0.003));
  CHECK(limit.window.kind == WindowKind::first_crush);
  CHECK(limit.window.extent == Approx(0.1));
  CHECK(limit.channel_class == 180);
  CHECK(limit.at_most);
  CHECK(limit.value.value == Approx(19.6133));
  CHECK(limit.status == LimitStatus::regulation);
  CHECK(limit.requirement.edition == "03");
  CHECK(limit.requirement.clause == "5.2.1");
}
