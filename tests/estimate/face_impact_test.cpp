#include "sample_cases.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_cases;

namespace {

/// Two equal cones, 800 mm apart, 400 mm above ground; `more` goes into both.
std::string pair_of_cones(const std::string& more = "") {
  const auto at = [](const char* y) { return fmt::format("    at: {{y: {}, z: 400 mm}}\n", y); };
  return cone("left", "{tip: 1.6 mm, root: 1.8 mm}", at("400 mm") + more) +
         cone("right", "{tip: 1.6 mm, root: 1.8 mm}", at("-400 mm") + more);
}

std::string faced(const std::string& lateral, const std::string& width = "1400 mm", const std::string& more = "",
                  const std::string& mass = "1000 kg") {
  return fmt::format(R"(  hit:
    striker: {{id: trolley, mass: {}}}
    struck: {{id: car, mass: 1200 kg, yaw_radius: 1 m}}
    closing_speed: 8 m/s
{}    face: {{shape: flat, width: {}, height: 600 mm, lower_edge: 100 mm, lateral: {}}}
)",
                     mass, more, width, lateral);
}

const std::string limits = "  stroke: {quantity: stroke_used, at_most: 100 %}\n"
                           "  peak: {of: car, quantity: acceleration, at_most: 60 g}\n";

const ImpactOutcome& impact_of(const Estimate& estimate) {
  return estimate.deciding.impacts.front();
}

const ColumnMotion& column_of(const ImpactOutcome& impact, const std::string& id) {
  return *std::find_if(impact.motion.columns.begin(), impact.motion.columns.end(),
                       [&](const ColumnMotion& column) { return column.structure == id; });
}

bool mentions(const std::vector<std::string>& texts, const std::string& part) {
  return std::any_of(texts.begin(), texts.end(),
                     [&](const std::string& text) { return text.find(part) != std::string::npos; });
}

} // namespace

TEST_CASE("a face over both of two equal structures is the same impact as shares of one half") {
  const Estimate by_face = estimate_of(pair_of_cones(), faced("0 mm"), limits);
  const Estimate by_share = estimate_of(pair_of_cones(), R"(  hit:
    striker: {id: trolley, mass: 1000 kg}
    struck: {id: car, mass: 1200 kg}
    closing_speed: 8 m/s
    share: {left: 50 %, right: 50 %}
)",
                                        limits);
  const ImpactMotion& face = impact_of(by_face).motion;
  const ImpactMotion& share = impact_of(by_share).motion;
  CHECK(face.columns[0].peak_crush == Approx(share.columns[0].peak_crush).epsilon(1e-9));
  CHECK(face.columns[1].peak_force == Approx(share.columns[1].peak_force).epsilon(1e-9));
  CHECK(face.peak_total_force == Approx(share.peak_total_force).epsilon(1e-9));
  CHECK(std::abs(impact_of(by_face).yaw->peak_moment) < 1e-6 * face.peak_total_force);
}

TEST_CASE("a face that meets one of two structures leaves the other whole and turns the car") {
  const Estimate result = estimate_of(pair_of_cones(), faced("500 mm", "600 mm"), limits);
  const ImpactOutcome& impact = impact_of(result);
  REQUIRE(impact.contacts.size() == 2);
  CHECK(impact.contacts[0].struck);
  CHECK_FALSE(impact.contacts[1].struck);
  REQUIRE(impact.motion.columns.size() == 1);
  CHECK(impact.motion.columns.front().structure == "left");
  CHECK(impact.yaw->arm == Approx(0.4).epsilon(1e-6));
  CHECK(impact.yaw->peak_moment == Approx(0.4 * impact.motion.peak_total_force).epsilon(1e-9));
  CHECK(mentions(impact.notes, "right"));
}

TEST_CASE("a face on the other side gives the mirrored impact") {
  const ImpactOutcome left = impact_of(estimate_of(pair_of_cones(), faced("300 mm", "1000 mm"), limits));
  const ImpactOutcome right = impact_of(estimate_of(pair_of_cones(), faced("-300 mm", "1000 mm"), limits));
  CHECK(column_of(left, "left").peak_crush == Approx(column_of(right, "right").peak_crush).epsilon(1e-9));
  CHECK(left.yaw->impulse == Approx(-right.yaw->impulse).epsilon(1e-9));
}

TEST_CASE("a face that meets no structure fails every limit of its impact and says why") {
  const Estimate result = estimate_of(pair_of_cones(), faced("0 mm", "300 mm"), limits);
  CHECK(result.deciding.verdict.word == Word::fail);
  for (const Check& check : result.deciding.verdict.checks) {
    CHECK(check.word == Word::fail);
    CHECK(check.note.find("meets no structure") != std::string::npos);
  }
  CHECK(impact_of(result).motion.columns.empty());
  CHECK(mentions(result.warnings, "meets no structure"));
}

TEST_CASE("a striker lighter than what it hits leaves the verdict open instead of a wrong number") {
  const Estimate result = estimate_of(pair_of_cones(), faced("0 mm", "1400 mm", "", "1.5 kg"), limits);
  CHECK(result.deciding.verdict.word == Word::open);
  for (const Check& check : result.deciding.verdict.checks)
    CHECK(check.note.find("own inertia decides") != std::string::npos);
}

TEST_CASE("a rail weaker than the structure crushes first, holds the force down and is named") {
  const std::string rail = "    attachment: {capacity: 30 kN, stiffness: 40 kN/mm}\n";
  const Estimate result = estimate_of(pair_of_cones(rail), faced("0 mm"),
                                      limits + "  rails: {quantity: attachment_crush, at_most: 0 mm}\n");
  const ImpactOutcome& impact = impact_of(result);
  CHECK(column_of(impact, "left").peak_force <= 30e3 * (1 + 1e-9));
  REQUIRE(impact.motion.elements.size() == 2);
  CHECK(impact.motion.elements.front().lasting_crush > 0.1);
  CHECK(check_named(result.deciding, "rails").word == Word::fail);
  CHECK(mentions(result.warnings, "what carries left crushes"));
  CHECK(impact.motion.ledger.elsewhere > 0.8 * impact.motion.ledger.input);
}

TEST_CASE("a rail stronger than the structure stays elastic and changes the crush by little") {
  const std::string rail = "    attachment: {capacity: 500 kN, stiffness: 400 kN/mm}\n";
  const ImpactOutcome with = impact_of(estimate_of(pair_of_cones(rail), faced("0 mm"), limits));
  const ImpactOutcome without = impact_of(estimate_of(pair_of_cones(), faced("0 mm"), limits));
  CHECK(with.motion.elements.front().first_crush_time < 0);
  CHECK(column_of(with, "left").peak_crush == Approx(column_of(without, "left").peak_crush).epsilon(0.01));
}

TEST_CASE("what the run with own inertia leaves out is said with the impact's name, as every note") {
  const std::string rail = "    attachment: {capacity: 500 kN, stiffness: 400 kN/mm}\n";
  const ImpactOutcome impact =
      impact_of(estimate_of(pair_of_cones(rail), faced("0 mm", "1400 mm", "    resolved: true\n"), limits));
  REQUIRE(impact.resolved);
  CHECK(mentions(impact.notes, "hit: the run with the structures' own inertia leaves out face blocks"));
  for (const std::string& note : impact.notes)
    CHECK(note.rfind("hit: ", 0) == 0);
}

TEST_CASE("two equal structures struck alike on both sides of the centre do not turn the body at all") {
  const ImpactOutcome impact = impact_of(estimate_of(pair_of_cones(), faced("0 mm"), limits));
  REQUIRE(impact.yaw);
  CHECK(impact.yaw->peak_moment == 0);
  CHECK(impact.yaw->energy == 0);
}

TEST_CASE("an attachment's capacity ends the usable stroke even without a limit") {
  const std::string rail = "    attachment: {capacity: 45 kN}\n";
  const ImpactOutcome impact = impact_of(estimate_of(pair_of_cones(rail), faced("0 mm"), limits));
  CHECK(impact.sides.at(1).structures.front().what_ends_stroke == "capacity of the attachment");
}

TEST_CASE("a face over part of the tip lowers the weak and the nominal side alone") {
  const Estimate whole = estimate_of(pair_of_cones(), faced("0 mm"), limits);
  // The face ends 420 mm from the middle; the tips, 80 mm wide, reach from 360 to 440 mm.
  const Estimate part = estimate_of(pair_of_cones(), faced("0 mm", "840 mm"), limits);
  CHECK(impact_of(part).contacts[0].bearing_share == Approx(0.75).epsilon(1e-6));
  const Check& before = check_named(whole.deciding, "stroke");
  const Check& after = check_named(part.deciding, "stroke");
  CHECK(*after.combined.weak > 1.2 * *before.combined.weak);
  CHECK(*after.combined.nominal > 1.2 * *before.combined.nominal);
  CHECK(*after.combined.strong == Approx(*before.combined.strong).epsilon(1e-9));
}

TEST_CASE("the case may limit how much of a tip the face must cover") {
  const Estimate result = estimate_of(pair_of_cones(), faced("0 mm", "840 mm"),
                                      limits + "  bearing: {quantity: bearing_share, at_least: 90 %}\n");
  CHECK(check_named(result.deciding, "bearing").word == Word::fail);
  CHECK(*check_named(result.deciding, "bearing").combined.nominal == Approx(0.75).epsilon(1e-6));
}
