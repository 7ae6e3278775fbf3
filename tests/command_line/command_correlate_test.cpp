#include "command_line/program_run.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace crushwright;
using namespace program_run;
using Catch::Contains;
using nlohmann::json;

namespace {

const std::string demo = (source / "cases/twin_rear_cones.yaml").string();
const std::string press = (source / "cases/left_cone.csv").string();

} // namespace

TEST_CASE("a component test is set beside its prediction in text, page and document") {
  const TemporaryFolder folder("correlate");
  const Ended ended = run(folder, {"correlate", demo, press, "--structure", "left_cone"});
  INFO(ended.out << ended.err);
  REQUIRE(ended.code == 0);
  CHECK(ended.err.empty());
  // The invented press was made at 0.95 of the nominal curve with ripples: 1/0.95 - 1 = 5.3 %.
  CHECK_THAT(ended.out, Contains("Energy +5.3\u00a0%"));
  CHECK_THAT(ended.out, Contains("over 100 % of the crush"));
  const std::string page = bytes_of(folder.path() / "twin_rear_cones_correlation/correlation.html");
  for (const char* part : {"left_cone beside its test", "Force against crush", "Energy against crush", "Cautions"})
    CHECK_THAT(page, Contains(part));
  const json document = json::parse(bytes_of(folder.path() / "twin_rear_cones_correlation/result.json"));
  CHECK(document["command"] == "correlate");
  CHECK(document["correlation"]["energy_error"]["value"].get<double>() == Approx(1 / 0.95 - 1).margin(2e-3));
  CHECK(document["crush"]["values"].size() == document["weak"]["values"].size());
  // A second run replaces its own page.
  CHECK(run(folder, {"correlate", demo, press, "--structure", "left_cone"}).code == 0);
}

TEST_CASE("ripples of single folds go with a filter of their length, and the energy stays") {
  const TemporaryFolder folder("correlate_filter");
  const auto document = [&](const std::vector<std::string>& more) {
    std::vector<std::string> words{"correlate", demo, press, "--structure", "left_cone", "--no-pack", "--json"};
    words.insert(words.end(), more.begin(), more.end());
    const Ended ended = run(folder, words);
    REQUIRE(ended.code == 0);
    return json::parse(ended.out);
  };
  const json raw = document({}), smooth = document({"--filter", "24 mm"});
  CHECK(smooth["correlation"]["normalised_error"]["value"].get<double>() <
        raw["correlation"]["normalised_error"]["value"].get<double>());
  CHECK(smooth["correlation"]["rating"]["slope"].get<double>() > raw["correlation"]["rating"]["slope"].get<double>());
  CHECK(smooth["correlation"]["energy_error"]["value"].get<double>() ==
        Approx(raw["correlation"]["energy_error"]["value"].get<double>()).margin(3e-3));
}

TEST_CASE("a structure that the case does not have, or a filter of nothing, is refused before anything is written") {
  const TemporaryFolder folder("correlate_refused");
  const Ended nowhere = run(folder, {"correlate", demo, press, "--structure", "middle_cone"});
  CHECK(nowhere.code == 2);
  CHECK_THAT(nowhere.err, Contains("no structure 'middle_cone'"));
  const Ended filter = run(folder, {"correlate", demo, press, "--structure", "left_cone", "--filter", "0 mm"});
  CHECK(filter.code == 2);
  CHECK_THAT(filter.err, Contains("--filter 0 mm"));
  CHECK_FALSE(std::filesystem::exists(folder.path() / "twin_rear_cones_correlation"));
}
