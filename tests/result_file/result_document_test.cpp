#include "result_file/json_text.hpp"
#include "result_file/result_document.hpp"
#include "review_pack/sample_estimate.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace crushwright;

namespace {

const Provenance provenance{"0.1.0", "0123456789abcdef"};

Json estimate_json() {
  return Json::parse(result_document(hand_made::crash_case(), hand_made::estimate(), provenance));
}

/// Every object that holds a number as "value" or a list as "values" must say its unit.
void require_units(const Json& node, const std::string& where) {
  INFO(where);
  if (node.is_object()) {
    const bool bare_number = node.contains("value") && node["value"].is_number() && !node.contains("unit");
    const bool bare_series = node.contains("values") && !node.contains("unit");
    CHECK_FALSE((bare_number || bare_series));
  }
  for (const auto& member : node.items()) {
    if (member.value().is_structured()) {
      require_units(member.value(), where + "/" + member.key());
    }
  }
}

} // namespace

TEST_CASE("the result document opens with its schema, the program and the command") {
  const std::string text = result_document(hand_made::crash_case(), hand_made::estimate(), provenance);
  CHECK(text.rfind("{\n  \"schema\": 1,\n  \"program\": \"crushwright\",\n  \"version\": \"0.1.0\",\n"
                   "  \"command\": \"estimate\",\n",
                   0) == 0);
  CHECK(text.back() == '\n');
}

TEST_CASE("size and compare share the head and the schema of estimate") {
  const Json size = Json::parse(result_document(hand_made::crash_case(), hand_made::sizing(), provenance));
  const Json compare = Json::parse(result_document(hand_made::crash_case(), hand_made::comparison(), provenance));
  for (const Json& document : {size, compare}) {
    CHECK(document["schema"] == result_schema);
    CHECK(document["input_hash"]["digest"] == "0123456789abcdef");
    CHECK(document["case"]["id"] == "sample_bodies");
  }
  CHECK(size["command"] == "size");
  CHECK(size["best"]["mass"] == Json{{"value", 6.1}, {"unit", "kg"}});
  CHECK(size["scanned"].size() == 2);
  CHECK(compare["command"] == "compare");
  CHECK(compare["fixed"].size() == 3);
  CHECK(compare["baselines"][0]["word"] == "fail");
}

TEST_CASE("every number with a value or a series in the document says its unit") {
  require_units(estimate_json(), "");
}

TEST_CASE("the document holds every check with its sides, in SI") {
  const Json json = estimate_json();
  const Json& checks = json["verdict"]["checks"];
  REQUIRE(checks.size() == 8);
  const Json& force = checks[0];
  CHECK(force["limit"]["id"] == "attachment_left");
  CHECK(force["limit"]["value"] == Json{{"value", 95e3}, {"unit", "N"}});
  CHECK(force["limit"]["requirement"]["clause"] == "4.2");
  CHECK(force["combined"]["strong"]["value"] == 98e3);
  CHECK(force["word"] == "open");
  CHECK(checks[2]["combined"]["weak"]["bottomed"] == true);
  CHECK(json["verdict"]["governing"] == Json{{"limit", "stroke_offset"}, {"impact", "offset"}});
  CHECK(json["other_verdicts"][0]["checks"][0]["word"] == "pass");
}

TEST_CASE("curves and histories in the document equal those of the estimate") {
  const Estimate estimate = hand_made::estimate();
  const Json json = estimate_json();
  CHECK(json["curves"][0]["nominal"]["force"]["unit"] == "N");
  CHECK(json["curves"][0]["nominal"]["force"]["values"].get<std::vector<double>>() ==
        estimate.deciding.curves[0].nominal.force);
  const Json& history = json["impacts"][0]["history"];
  CHECK(history["time"]["values"].size() == history["struck_speed"]["values"].size());
  CHECK(history["time"]["values"].size() <= 400);
  CHECK(history["structures"].size() == 2);
}

TEST_CASE("a value that could not be had is null with its reason, not a number") {
  Estimate estimate = hand_made::estimate();
  Check& check = estimate.deciding.verdict.checks[1];
  check.combined = {};
  check.combined.reason = "the pulse is shorter than the class needs";
  check.worst_value = std::numeric_limits<double>::quiet_NaN();
  const Json json = Json::parse(result_document(hand_made::crash_case(), estimate, provenance));
  CHECK(json["verdict"]["checks"][1]["worst_value"].is_null());
  CHECK(json["verdict"]["checks"][1]["combined"]["nominal"].is_null());
  CHECK(json["verdict"]["checks"][1]["combined"]["reason"] == "the pulse is shorter than the class needs");
}

TEST_CASE("a number that is not finite is refused with its place in the document") {
  Estimate estimate = hand_made::estimate();
  estimate.structures[1].mass.skin = std::numeric_limits<double>::quiet_NaN();
  try {
    result_document(hand_made::crash_case(), estimate, provenance);
    FAIL("a NaN was written");
  } catch (const NotFinite& error) {
    CHECK(error.where() == "/structures/1/mass/skin/value");
    CHECK(std::string(error.what()).find("nan at /structures/1/mass/skin/value; nothing was written") !=
          std::string::npos);
  }
  estimate = hand_made::estimate();
  estimate.deciding.curves[0].strong.energy[3] = std::numeric_limits<double>::infinity();
  try {
    result_document(hand_made::crash_case(), estimate, provenance);
    FAIL("an infinity was written");
  } catch (const NotFinite& error) {
    CHECK(error.where() == "/curves/0/strong/energy/values/3");
  }
}

TEST_CASE("the place of a faulty number is a JSON pointer even where keys hold its signs") {
  try {
    json_text(Json{{"a/b~c", Json{{"value", std::numeric_limits<double>::infinity()}}}});
    FAIL("an infinity was written");
  } catch (const NotFinite& error) {
    CHECK(error.where() == "/a~1b~0c/value");
  }
}

TEST_CASE("the same estimate gives the same bytes") {
  CHECK(result_document(hand_made::crash_case(), hand_made::estimate(), provenance) ==
        result_document(hand_made::crash_case(), hand_made::estimate(), provenance));
}

TEST_CASE("decimals read back to the same double") {
  const std::vector<double> values = {0.1, 1.0 / 3.0, 6.02214076e23, 5e-324, -0.0, 123456789.123456789};
  const Json json = Json::parse(json_text(series_json(values, "1")));
  CHECK(json["values"].get<std::vector<double>>() == values);
}
