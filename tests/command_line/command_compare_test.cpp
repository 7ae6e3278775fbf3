#include "command_line/program_run.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace crushwright;
using namespace program_run;
using nlohmann::json;

namespace {

std::string compared_block(const std::string& force_limit) {
  return block_case(force_limit) +
         "size: {cell_edges: [8 mm], smallest: 0.2 mm, largest: 2 mm}\n"
         "compare: {cells: [honeycomb_uniform_wall, bcc], materials: [AlSi10Mg-stress-relieved], "
         "relative_densities: [8 %, 12 %]}\n";
}

} // namespace

TEST_CASE("designs are ranked, passing ones by mass, with designs without a printed lattice beside them") {
  const TemporaryFolder folder("compare");
  folder.write("block.yaml", compared_block("250 kN"));
  const Ended compared = run(folder, {"compare", "block.yaml", "--json", "--no-pack"});
  INFO(compared.err);
  REQUIRE(compared.code == 0);
  const json document = json::parse(compared.out);
  CHECK(document.at("command") == "compare");
  CHECK(document.at("sized").size() == 2);
  CHECK(document.at("fixed").size() == 4);
  CHECK(document.at("baselines").size() >= 2);
  const std::string page = bytes_of(source / "docs/result_format.md");
  for (const json* part : {&document, &document.at("sized").at(0)})
    for (const auto& [key, value] : part->items()) {
      INFO(key);
      CHECK(page.find("`" + key + "`") != std::string::npos);
    }
  bool passing_ended = false;
  double last = 0;
  for (const json& design : document.at("fixed")) {
    const bool passes = design.at("feasible").get<bool>();
    CHECK_FALSE((passes && passing_ended));
    passing_ended = passing_ended || !passes;
    const double mass = design.at("mass").at("value").get<double>();
    CHECK((!passes || mass >= last));
    last = mass;
  }
}

TEST_CASE("the text of a comparison names the lightest pass and fits a terminal") {
  const TemporaryFolder folder("compare_text");
  folder.write("block.yaml", compared_block("250 kN"));
  const Ended compared = run(folder, {"compare", "block.yaml"});
  CHECK(compared.code == 0);
  CHECK(compared.err.empty());
  CHECK(compared.out.substr(0, 5) == "FOUND");
  CHECK(compared.out.find("Each cell and material at its own least mass") != std::string::npos);
  CHECK(compared.out.find("At the stated relative densities") != std::string::npos);
  CHECK(compared.out.find("Review pack: block_pack/review.html\n") != std::string::npos);
}

TEST_CASE("a comparison in which nothing passes ends with 1 and says what governs") {
  const TemporaryFolder folder("compare_missed");
  folder.write("block.yaml", compared_block("1 kN"));
  const Ended compared = run(folder, {"compare", "block.yaml", "--no-pack"});
  CHECK(compared.code == 1);
  CHECK(compared.out.substr(0, 9) == "NOT FOUND");
  CHECK(compared.out.find("rig_force") != std::string::npos);
}
