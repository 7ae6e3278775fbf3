#include "review_pack/review_pack.hpp"
#include "review_pack/sample_estimate.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::string page(const Estimate& estimate, const CrashCase& crash_case = hand_made::crash_case()) {
  return review_page(crash_case, estimate, {"0.1.0", "0123456789abcdef"}, {hand_made::material()}, Alternatives{}, {},
                     {});
}

/// The part of a page from one heading to the next section.
std::string under(const std::string& html, const std::string& heading) {
  const std::size_t begin = html.find(heading);
  REQUIRE(begin != std::string::npos);
  return html.substr(begin, html.find("</div>\n</div>", begin) - begin);
}

Estimate with_trigger(double peak_with) {
  Estimate estimate = hand_made::estimate();
  for (StructureModel& structure : estimate.structures) {
    structure.curve = crush_curve(structure.layers, structure.first_peak);
    structure.trigger_length = 0.02;
    structure.trigger_effect = TriggerEffect{90e3, peak_with, 41e3, 60e3, 57e3, 350, -0.04};
  }
  return estimate;
}

Estimate with_laws() {
  Estimate estimate = hand_made::estimate();
  const RateLaw energy{RateForm::cowper_symonds, 6500, 4, {"Invented drop tests", Standing::memory}};
  const RateLaw peak{RateForm::johnson_cook, 0.014, 1e-3, {}};
  for (StructureModel& structure : estimate.structures) {
    structure.has_rate_law = true;
    structure.lattice_rate.energy = energy;
    structure.lattice_rate.peak = peak;
  }
  const std::vector<double> rates(24, 800), energy_factors(24, 1.592), peak_factors(24, 1.611);
  for (const char* structure : {"left", "right"}) {
    estimate.deciding.impacts[0].layer_rates.push_back({structure, rates, energy_factors, peak_factors});
  }
  estimate.deciding.impacts[0].layer_rates[0].strain_rate.back() = 0;
  estimate.deciding.impacts[0].layer_rates[1].strain_rate.back() = 0;
  return estimate;
}

} // namespace

TEST_CASE("a case without trigger, temperature, rate law or late start has no section about rows") {
  CHECK_FALSE(contains(page(hand_made::estimate()), "What the rows meet"));
}

TEST_CASE("a row that starts afresh is told once for a structure and its mirror") {
  Estimate estimate = hand_made::estimate();
  for (StructureModel& structure : estimate.structures) {
    structure.later_peaks = {{50e3, 1.4, 0.006}};
    structure.row_starts = {{0.02, 0.015}};
  }
  const std::string html = page(estimate);
  const std::string part = under(html, "<h3>Rows that start afresh</h3>");
  CHECK(contains(part, "left and its mirror right"));
  CHECK(contains(part, "<td class=\"n\">20 mm</td>"));
  CHECK(contains(part, "<td class=\"n\">15 mm</td>"));
  CHECK(contains(part, "<td class=\"n\">50 kN</td>"));
  CHECK(contains(part, "<td class=\"n\">70 kN</td>"));
  CHECK(contains(part, "<td class=\"n\">6 mm</td>"));
}

TEST_CASE("a trigger that lowers the highest start says by how much, one that moves the peak says that") {
  const std::string lowers = page(with_trigger(72e3));
  CHECK(contains(lowers, "The first 20 mm are weakened and start at 41 kN."));
  CHECK(contains(lowers, "No row takes more than 72 kN to start, 20 % less than without the trigger."));
  const std::string table = under(lowers, "<h3>Trigger of left and its mirror right</h3>");
  CHECK(contains(table, "<td class=\"n\">90 kN</td><td class=\"n\">72 kN</td>"));
  CHECK(contains(table, "<td class=\"n\">60 kN</td><td class=\"n\">57 kN</td>"));
  CHECK(contains(table, "\u22125.0\u00a0%")); // 57 over 60
  const std::string moves = page(with_trigger(90e3));
  CHECK(contains(moves, "the peak comes later, it does not fall"));
}

TEST_CASE("temperatures along a structure name the coolest and the hottest layer and what they leave") {
  Estimate estimate = hand_made::estimate();
  StructureModel& structure = estimate.structures[0];
  structure.heat = LayerHeat{};
  for (std::size_t i = 0; i < structure.layers.size(); ++i) {
    structure.heat->temperature.push_back(300.15 + static_cast<double>(i));
    structure.heat->factor.push_back(1 - 0.01 * static_cast<double>(i));
  }
  structure.temperature_factor = 0.88;
  const std::string part = under(page(estimate), "<h3>Temperature</h3>");
  CHECK(contains(part, "27 °C at 8.75 mm"));
  CHECK(contains(part, "50 °C at 411.2 mm"));
  CHECK(contains(part, "<td class=\"n\">77 %</td><td class=\"n\">88 %</td>"));
}

TEST_CASE("one temperature that takes nothing away needs no table") {
  Estimate estimate = hand_made::estimate();
  estimate.structures[0].heat = LayerHeat{std::vector<double>(24, 310), std::vector<double>(24, 1)};
  CHECK_FALSE(contains(page(estimate), "What the rows meet"));
}

TEST_CASE("rate laws are shown as formulas with source and standing, the rates by impact and layer") {
  const std::string part = under(page(with_laws()), "<h3>Strain rate</h3>");
  CHECK(contains(part, "1 + (rate / 6500 1/s)^(1 / 4)"));
  CHECK(contains(part, "Invented drop tests <span class=\"quiet\">(from memory)</span>"));
  CHECK(contains(part, "1 + 0.014 ln(rate / 0.001 1/s), at least 1"));
  CHECK(contains(part, "<span class=\"id\">left, right</span>"));
  CHECK(contains(part, "<td class=\"n\">800 1/s</td><td class=\"n\">1.592</td><td class=\"n\">1.611</td>"));
  CHECK(contains(part, "at rest before"));
}

TEST_CASE("strengths of bolts, rails and metals under cycles stand under the column figures with their standing") {
  Estimate estimate = hand_made::estimate();
  estimate.structures[0].column.sections.resize(1);
  BoltPattern bolts;
  bolts.proof_load = hand_made::quantity(29e3, Dimension::force, "bolts",
                                         hand_made::source("recalled class 10.9", Standing::memory));
  estimate.structures[0].bolts = bolts;
  estimate.structures[0].attachment = AttachmentInput{};
  estimate.structures[0].attachment->capacity = hand_made::quantity(98e3, Dimension::force, "capacity");
  estimate.structures[0].attachment->capacity.low = 95e3;
  estimate.structures[0].attachment->capacity.high = 104e3;
  CrashCase crash_case = hand_made::crash_case();
  FatigueStrength skin;
  skin.of = "skin";
  skin.amplitude =
      hand_made::quantity(45e6, Dimension::stress, "skin", hand_made::source("invented test", Standing::derived));
  skin.cycles.value = 1e7;
  crash_case.fatigue_strengths = {skin};
  const std::string part = under(page(estimate, crash_case), "<h3>Strengths that these figures rest on</h3>");
  CHECK(contains(part, "A strength from memory is recalled, not looked up"));
  CHECK(contains(part, "<td class=\"n\">29 kN</td><td class=\"n\"></td><td>recalled class 10.9 <span "
                       "class=\"quiet\">(from memory)</span></td>"));
  CHECK(contains(part, "<td class=\"n\">95 kN to 104 kN</td><td><span class=\"quiet\">no source stated</span></td>"));
  CHECK(contains(part, "skin under cycles, amplitude at 1e+07 cycles"));
  CHECK(contains(part, "(derived)"));
  bolts.proof_load.source.standing = Standing::read;
  estimate.structures[0].bolts = bolts;
  CHECK_FALSE(contains(page(estimate, crash_case), "A strength from memory"));
}
