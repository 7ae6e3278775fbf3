#include "review_pack/browser_bundles.hpp"
#include "review_pack/html.hpp"
#include "review_pack/review_pack.hpp"
#include "review_pack/sample_estimate.hpp"
#include "review_pack/verdict_words.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <limits>

using namespace crushwright;

namespace {

const Provenance provenance{"0.1.0", "0123456789abcdef"};

std::string page(const CrashCase& crash_case, const Estimate& estimate) {
  return review_page(crash_case, estimate, provenance, {hand_made::material()},
                     {hand_made::sizing(), hand_made::comparison()});
}

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++found;
  }
  return found;
}

nlohmann::json chart_specs(const std::string& html) {
  const std::string opening = "<script type=\"application/json\" id=\"chart-specs\">";
  const std::size_t from = html.find(opening) + opening.size();
  return nlohmann::json::parse(html.substr(from, html.find("</script>", from) - from));
}

std::string without_bundles(std::string html) {
  for (const std::string_view bundle : {vega_script(), vega_lite_script()}) {
    const std::size_t at = html.find(bundle);
    REQUIRE(at != std::string::npos);
    html.erase(at, bundle.size());
  }
  return html;
}

} // namespace

TEST_CASE("the page has every section") {
  const std::string html = page(hand_made::crash_case(), hand_made::estimate());
  for (const char* id :
       {"verdict", "beyond", "structure", "crush", "impacts", "cell", "axis", "mass", "alternatives", "inputs",
        "properties", "materials", "assumptions", "warnings", "cautions", "references", "provenance"}) {
    INFO(id);
    CHECK(count(html, "<section id=\"" + std::string(id) + "\"") == 1);
  }
}

TEST_CASE("every check and every warning of the estimate is on the page") {
  const Estimate estimate = hand_made::estimate();
  const std::string html = page(hand_made::crash_case(), estimate);
  for (const Check& check : estimate.deciding.verdict.checks) {
    INFO(check.limit.id);
    CHECK(contains(html, "<span class=\"id quiet\">" + check.limit.id + "</span>"));
    CHECK(contains(html, escape_html(limited_thing(check.limit))));
    CHECK(contains(html, escape_html(limit_text(check.limit))));
    CHECK(contains(html, escape_html(check.note)));
  }
  for (const std::string& warning : estimate.warnings) {
    CHECK(contains(html, "<li>" + prose_html(warning) + "</li>"));
  }
  for (const StructureModel& structure : estimate.structures) {
    for (const std::string& warning : structure.warnings) {
      CHECK(contains(html, escape_html(warning)));
    }
  }
}

TEST_CASE("the structure's cell is drawn with its crush direction, and a foam is named instead") {
  UnitCell cell;
  cell.id = "octet";
  cell.name = "Octet truss";
  cell.struts = {{{0, 0, 0}, {0.5, 0.5, 0}}, {{0, 0, 0}, {0.5, 0, 0.5}}, {{0, 0, 0}, {0, 0.5, 0.5}}};
  cell.size_name = "strut diameter";
  cell.true_density_coefficients = {0, 6.66};
  cell.size_ratio_range = {0.02, 0.3};
  const auto with = [](const UnitCell& drawn) {
    return review_page(hand_made::crash_case(), hand_made::estimate(), provenance, {hand_made::material()}, {},
                       {drawn});
  };
  const std::string html = with(cell);
  CHECK(count(html, "class=\"cell-drawing\"") == 1);
  CHECK(contains(html, ">crush 100</text>"));
  cell.cell_class = CellClass::foam;
  CHECK(count(with(cell), "class=\"cell-drawing\"") == 0);
  CHECK(contains(with(cell), "A foam is stated by its density and has no drawing."));
}

TEST_CASE("every input, every evidence and every source is on the page") {
  const CrashCase crash_case = hand_made::crash_case();
  const Estimate estimate = hand_made::estimate();
  const std::string html = page(crash_case, estimate);
  for (const Quantity& quantity : crash_case.all_quantities) {
    CHECK(contains(html, quantity.path));
    CHECK(contains(html, escape_html(quantity.source.text)));
  }
  for (const PropertyEvidence& evidence : estimate.structures[0].cells[0].properties.plateau_stress.all) {
    CHECK(contains(html, evidence.law));
    CHECK(contains(html, escape_html(evidence.source.text)));
  }
  CHECK(contains(html, "0123456789abcdef"));
}

TEST_CASE("the verdict box names the other scatter sets and what is not checked") {
  const std::string html = page(hand_made::crash_case(), hand_made::estimate());
  const std::string box = html.substr(html.find("<div class=\"verdict\">"), html.find("<h2>Checks</h2>"));
  CHECK(contains(box, "<p>With the scatter set after_coupons: fail. 1 of 8 limits fails at nominal.</p>"));
  CHECK(contains(
      box,
      prose_html("Not stated in the case, so not checked: an oblique force (`force_angle`), service loads, a load "
                 "spectrum for fatigue.")));
  CHECK(contains(box, "<a href=\"#assumptions\">"));
}

TEST_CASE("a limit that holds combined and misses stacked says so beside its pass") {
  Estimate estimate = hand_made::estimate();
  Check& pulse = estimate.deciding.verdict.checks[1];
  REQUIRE(pulse.word == Word::pass);
  pulse.stacked.strong = 20.5 * 9.80665;
  pulse.stacked_holds = false;
  const std::string html = page(hand_made::crash_case(), estimate);
  CHECK(contains(html, "<td class=\"n\">20.5 g<br><span class=\"quiet\">misses</span></td>"));
  pulse.stacked.weak.reset();
  CHECK_FALSE(worst_stacked(pulse));
  CHECK(stacked_word(pulse) == "none");
}

TEST_CASE("the worst stacked value is the least where the limit is a least value") {
  const std::vector<Check> checks = hand_made::checks();
  const Check& force = checks.at(0);
  const Check& reserve = checks.at(7);
  REQUIRE(force.limit.at_most);
  REQUIRE_FALSE(reserve.limit.at_most);
  CHECK(worst_stacked(force) == force.stacked.strong);
  CHECK(worst_stacked(reserve) == reserve.stacked.weak);
}

TEST_CASE("a limit on a part's collapse comes with the call to inspect the part") {
  Estimate estimate = hand_made::estimate();
  const std::string call = "may still have yielded locally and must be inspected";
  CHECK(contains(page(hand_made::crash_case(), estimate), "collapse of left.body in low_speed"));
  CHECK(contains(page(hand_made::crash_case(), estimate), call));
  std::vector<Check>& checks = estimate.deciding.verdict.checks;
  checks.erase(checks.begin() + 3);
  CHECK_FALSE(contains(page(hand_made::crash_case(), estimate), call));
}

TEST_CASE("speeds are shown in km/h in words and in charts") {
  const Estimate estimate = hand_made::estimate();
  const std::string html = page(hand_made::crash_case(), estimate);
  CHECK(contains(html, "barrier of 1100 kg meets car of 1180 kg at 35 km/h"));
  double fastest = 0;
  const nlohmann::json chart = chart_specs(html).at("speed-0");
  for (const nlohmann::json& layer : chart["layer"]) {
    for (const nlohmann::json& point : layer["data"]["values"]) {
      fastest = std::max(fastest, point.at(1).get<double>());
    }
  }
  CHECK(contains(chart.dump(), "speed [km/h]"));
  CHECK(fastest == Approx(35).epsilon(0.001));
}

TEST_CASE("a value without a source leaves its cell empty, and the page says once what that means") {
  CrashCase crash_case = hand_made::crash_case();
  crash_case.all_quantities.push_back(
      hand_made::quantity(0.004, Dimension::length, "structures.left.sourceless", {}));
  const std::string html = page(crash_case, hand_made::estimate());
  CHECK_FALSE(contains(html, "no source given"));
  CHECK(count(html, "the case states no source") == 1);
  CHECK(contains(html, "structures.left.sourceless</span></td><td class=\"n\">4 mm</td><td class=\"n\"></td>"
                       "<td class=\"n\"></td><td></td>"));
}

TEST_CASE("a property that no law gives is named once and has no table") {
  Estimate estimate = hand_made::estimate();
  for (CellAtStation& cell : estimate.structures[0].cells) {
    cell.properties.plateau_end_strain.all.clear();
  }
  const std::string html = page(hand_made::crash_case(), estimate);
  CHECK_FALSE(contains(html, "<h3>Plateau end"));
  CHECK(count(html, "No law of the catalogue gives: plateau end (1.3 times the plateau stress).") == 1);
  CHECK(contains(html, "<h3>Locking strain</h3>"));
}

TEST_CASE("the length says that it includes end plates where there are any") {
  Estimate estimate = hand_made::estimate();
  CHECK(contains(page(hand_made::crash_case(), estimate), "length, end plates included"));
  for (StructureModel& structure : estimate.structures) {
    structure.mass.end_plates = 0;
  }
  CHECK_FALSE(contains(page(hand_made::crash_case(), estimate), "length, end plates included"));
}

TEST_CASE("a pack without a study names the commands for its case file and not where the file lies") {
  CrashCase crash_case = hand_made::crash_case();
  crash_case.file_name = "some/folder/sample_bodies.yaml";
  const auto alone = [&] {
    return review_page(crash_case, hand_made::estimate(), provenance, {hand_made::material()}, {});
  };
  CHECK(contains(alone(), "<code>crushwright compare sample_bodies.yaml</code>"));
  CHECK(contains(alone(), "<code>crushwright size sample_bodies.yaml</code>"));
  CHECK(contains(alone(), "once the case has a <code>size</code> block"));
  CHECK_FALSE(contains(alone(), "some/folder"));
  crash_case.sizing = SizingInput{Objective::mass, {0.01}, 0.0008, 0.003};
  CHECK_FALSE(contains(alone(), "once the case has"));
}

TEST_CASE("a hostile title, id or warning stays text") {
  CrashCase crash_case = hand_made::crash_case();
  Estimate estimate = hand_made::estimate();
  const std::string hostile = "</script><script>alert(1)</script><!-- \" ' & \u2028";
  crash_case.title = hostile;
  crash_case.description = hostile;
  estimate.warnings.push_back(hostile);
  estimate.structures[0].id = hostile;
  estimate.structures[1].mirror_of = hostile;
  estimate.deciding.curves[0].structure = hostile;
  estimate.deciding.impacts[0].id = hostile;
  estimate.deciding.verdict.checks[0].limit.id = hostile;
  estimate.deciding.verdict.checks[0].limit.of = hostile;
  const std::string clean = without_bundles(page(hand_made::crash_case(), hand_made::estimate()));
  const std::string html = without_bundles(page(crash_case, estimate));
  CHECK(count(html, "<script") == count(clean, "<script"));
  CHECK(count(html, "</script") == count(clean, "</script"));
  CHECK(count(html, "<!--") == count(clean, "<!--"));
  CHECK(count(html, "\u2028") > 0); // as text, where it is harmless
  const nlohmann::json specs = chart_specs(html);
  CHECK(specs.size() == chart_specs(clean).size());
  CHECK(contains(specs.dump(), "<script>alert(1)"));
}

TEST_CASE("the page asks nothing of the network and stays light") {
  const std::string html = page(hand_made::crash_case(), hand_made::estimate());
  const std::string own = without_bundles(html);
  CHECK(contains(own, "default-src 'none'"));
  CHECK_FALSE(contains(own, " src="));
  CHECK_FALSE(contains(own, "href=\"http"));
  CHECK_FALSE(contains(own, "@import"));
  CHECK(html.size() < 1'500'000);
}

TEST_CASE("every chart of the page has data and every place for a chart has its chart") {
  const std::string html = page(hand_made::crash_case(), hand_made::estimate());
  const nlohmann::json specs = chart_specs(html);
  CHECK(specs.size() >= 15);
  for (const auto& chart : specs.items()) {
    INFO(chart.key());
    CHECK(count(html, "data-chart=\"" + chart.key() + "\"") == 1);
    for (const nlohmann::json& layer : chart.value()["layer"]) {
      CHECK_FALSE(layer["data"]["values"].empty());
    }
  }
  CHECK(count(without_bundles(html), "data-chart=\"") == specs.size());
}

TEST_CASE("the same estimate gives the same page") {
  CHECK(page(hand_made::crash_case(), hand_made::estimate()) == page(hand_made::crash_case(), hand_made::estimate()));
}

TEST_CASE("a pack holds the page, the result and the curves, and a NaN writes nothing") {
  std::string scratch = (std::filesystem::temp_directory_path() / "crushwright-review-XXXXXX").string();
  REQUIRE(mkdtemp(scratch.data()) != nullptr);
  const std::filesystem::path folder = std::filesystem::path(scratch) / "pack";
  Estimate estimate = hand_made::estimate();
  write_review_pack(folder, hand_made::crash_case(), estimate, provenance, {hand_made::material()});
  CHECK(std::filesystem::exists(folder / "review.html"));
  CHECK(std::filesystem::exists(folder / "result.json"));
  CHECK(std::filesystem::exists(folder / "curves" / "force_crush-left-nominal.csv"));
  std::filesystem::remove_all(folder);
  estimate.structures[0].mass.total = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS(write_review_pack(folder, hand_made::crash_case(), estimate, provenance, {hand_made::material()}));
  CHECK_FALSE(std::filesystem::exists(folder));
  std::filesystem::remove_all(scratch);
}

TEST_CASE("keys between backticks become code, a single backtick and markup stay text") {
  CHECK(prose_html("state `force_angle` or `face`") == "state <code>force_angle</code> or <code>face</code>");
  CHECK(prose_html("a ` alone") == "a ` alone");
  CHECK(prose_html("`<b>` & c") == "<code>&lt;b&gt;</code> &amp; c");
}
