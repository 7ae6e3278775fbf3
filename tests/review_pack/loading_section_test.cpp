#include "review_pack/column_text.hpp"
#include "review_pack/html.hpp"
#include "review_pack/loading_parts.hpp"
#include "review_pack/review_pack.hpp"
#include "review_pack/sample_estimate.hpp"
#include "review_pack/verdict_text.hpp"

#include <catch2/catch.hpp>
#include <limits>

using namespace crushwright;

namespace {

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

Contact contact(const std::string& structure, double share) {
  Contact made;
  made.structure = structure;
  made.struck = share > 0;
  made.tip_area = 0.01;
  made.bearing_area = 0.01 * share;
  made.bearing_share = share;
  made.below = 0.031;
  return made;
}

ImpactOutcome faced_impact() {
  ImpactOutcome impact = hand_made::estimate().deciding.impacts.front();
  impact.shares.clear();
  impact.face = FaceInput{};
  impact.face->width.value = 1.5;
  impact.face->height.value = 0.5;
  impact.face->lower_edge.value = 0.2;
  impact.contacts = {contact("left", 0.62), contact("right", 0)};
  YawLoad yaw;
  yaw.peak_moment = 31e3;
  yaw.arm = 0.43;
  impact.yaw = yaw;
  ElementMotion rail;
  rail.id = "attachment of left";
  rail.structure = "left";
  rail.peak_force = 95e3;
  rail.peak_crush = 0.021;
  rail.lasting_crush = 0.018;
  rail.first_crush_time = 0.012;
  rail.absorbed = 1700;
  impact.motion.elements = {rail};
  impact.after_hit = {{0.4, 0.25, 6100, 0.55}, {0.4, 0.25, 6100, 0.55}};
  return impact;
}

ColumnUnderForce state(double use) {
  ColumnUnderForce made;
  made.angle = 0.1;
  made.force = 80e3;
  made.section = {0.4, 0.7, 0.3, 0.05, use};
  made.buckling_force = 900e3;
  made.tilting_force = std::numeric_limits<double>::infinity();
  made.stability_reserve = 10.25;
  return made;
}

Estimate with_columns(double use) {
  Estimate estimate = hand_made::estimate();
  for (StructureModel& structure : estimate.structures) {
    structure.column.sections.resize(1);
    structure.bending_frequency = 412;
  }
  ImpactOutcome& impact = estimate.deciding.impacts.front();
  impact.force_angle = 0.1;
  impact.mapped = {"left", "right"};
  impact.column_states = {state(use), state(use)};
  impact.column_maps = {{{0, 0.1}, {0.5, 1}, {{0.4, 0.8}, {0.6, use}}},
                        {{0, 0.1}, {0.5, 1}, {{0.4, 0.8}, {0.6, use}}}};
  impact.critical_angles = {0.15, 0.15};
  return estimate;
}

const Provenance provenance{"0.1.0", "0123456789abcdef"};

std::string page(const Estimate& estimate) {
  return review_page(hand_made::crash_case(), estimate, provenance, {hand_made::material()}, Alternatives{}, {}, {});
}

} // namespace

TEST_CASE("an impact with a face shows which tips it meets and how far they reach past it") {
  const std::string html = contact_part(faced_impact());
  CHECK(contains(html, "1500 mm wide, 200 mm to 700 mm above ground"));
  CHECK(contains(html, "<td class=\"n\">62 %</td>"));
  CHECK(contains(html, "31 mm below"));
  CHECK(contains(html, "<td>missed</td>"));
}

TEST_CASE("an impact stated by shares has no face to show") {
  CHECK(contact_part(hand_made::estimate().deciding.impacts.front()).empty());
}

TEST_CASE("an attachment that crushes is told with its force, its shortening and the moment it gives way") {
  const std::string html = element_part(faced_impact());
  CHECK(contains(html, "95 kN"));
  CHECK(contains(html, "18 mm"));
  CHECK(contains(html, "12 ms"));
}

TEST_CASE("yaw without a radius of gyration says what is missing instead of a rate") {
  ImpactOutcome impact = faced_impact();
  CHECK(contains(yaw_part(impact), "yaw_radius"));
  impact.yaw->rate = 1;
  impact.yaw->share_of_energy = 0.12;
  CHECK(contains(yaw_part(impact), "to the left at 57 °/s and take 12 % of the energy"));
}

TEST_CASE("structures left alike by a hit are named together") {
  const std::string html = after_hit_part(faced_impact());
  CHECK(contains(html, "left, right: 40 % of the layers have collapsed"));
  CHECK(html.find("have collapsed") == html.rfind("have collapsed"));
}

TEST_CASE("a section that is used up is framed in table and map") {
  const std::string html = page(with_columns(1.2));
  CHECK(contains(html, "<h2>The structure as a column</h2>"));
  CHECK(contains(html, "<span class=\"chosen\">120 %</span>"));
  CHECK(contains(html, "left, right"));
  CHECK(contains(html, "No service load is stated"));
  CHECK_FALSE(contains(page(with_columns(0.9)), "<span class=\"chosen\">90 %</span>"));
}

TEST_CASE("column checks without a limit are named beside the verdict with their worst value") {
  const std::string text = beside_the_verdict(with_columns(0.9));
  CHECK(contains(text, "use of the plastic section (90 % at worst, nominal)"));
  CHECK_FALSE(contains(text, "force_angle"));
  Estimate limited = with_columns(0.9);
  limited.deciding.verdict.checks.front().limit.quantity = LimitedQuantity::section_use;
  CHECK_FALSE(contains(beside_the_verdict(limited), "plastic section"));
}

TEST_CASE("the terminal names mirrors that stand alike once") {
  const std::string text = column_text(with_columns(0.9));
  CHECK(contains(text, "left, right"));
  CHECK(contains(text, "90 %"));
  CHECK(
      contains(verdict_text(hand_made::crash_case(), with_columns(0.9)), "Columns (nominal, worst over the stroke)"));
}
