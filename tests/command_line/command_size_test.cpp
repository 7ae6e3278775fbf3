#include "command_line/program_run.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

using namespace crushwright;
using namespace program_run;
using nlohmann::json;

namespace {

std::string sized_block(const std::string& size, const std::string& force_limit = "250 kN") {
  return block_case(force_limit) + "size: " + size + "\n";
}

/// The line of a text that begins with these words, without them.
std::string rest_of_line(const std::string& text, const std::string& begin) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    if (line.compare(0, begin.size(), begin) == 0)
      return line.substr(begin.size());
  return "";
}

} // namespace

TEST_CASE("the lightest design is lighter than the case's own, and passes when it is taken over into the case") {
  const TemporaryFolder folder("size_found");
  folder.write("block.yaml", sized_block("{cell_edges: [7 mm, 8 mm], smallest: 0.2 mm, largest: 1 mm}"));
  const Ended sized = run(folder, {"size", "block.yaml", "--no-pack"});
  INFO(sized.out << sized.err);
  REQUIRE(sized.code == 0);
  CHECK(sized.out.substr(0, 5) == "FOUND");
  CHECK(sized.err.empty());
  const std::string edge = rest_of_line(sized.out, "    cell_edge: "), wall = rest_of_line(sized.out, "    wall: ");
  REQUIRE_FALSE(edge.empty());
  REQUIRE_FALSE(wall.empty());
  std::string taken_over = block_case();
  taken_over.replace(taken_over.find("cell_edge: 8 mm "), 16, "cell_edge: " + edge + " ");
  taken_over.replace(taken_over.find("wall: 0.5 mm"), 12, "wall: " + wall);
  folder.write("taken_over.yaml", taken_over);
  CHECK(run(folder, {"estimate", "taken_over.yaml", "--no-pack"}).code == 0);
  const json document = json::parse(run(folder, {"size", "block.yaml", "--no-pack", "--json"}).out);
  CHECK(document.at("command") == "size");
  CHECK(document.at("found") == true);
  const std::string page = bytes_of(source / "docs/result_format.md");
  for (const auto& [key, value] : document.items()) {
    INFO(key);
    CHECK(page.find("`" + key + "`") != std::string::npos);
  }
  CHECK(document.at("best").at("mass").at("value").get<double>() < 0.3784);
}

TEST_CASE("where no size serves the nearest miss and the limit that binds are named") {
  const TemporaryFolder folder("size_missed");
  folder.write("block.yaml", sized_block("{cell_edges: [8 mm], smallest: 0.2 mm, largest: 1 mm}", "60 kN"));
  const Ended sized = run(folder, {"size", "block.yaml"});
  CHECK(sized.code == 1);
  CHECK(sized.out.substr(0, 9) == "NOT FOUND");
  CHECK(sized.out.find("No size serves") != std::string::npos);
  CHECK(sized.out.find("Widen `smallest`, `largest` or `cell_edges`") != std::string::npos);
  CHECK(std::filesystem::exists(folder.path() / "block_pack/review.html"));
  CHECK(sized.out.find("Review pack: block_pack/review.html\n") != std::string::npos);
}

TEST_CASE("two searches give the same bytes") {
  const TemporaryFolder folder("size_twice");
  folder.write("block.yaml", sized_block("{cell_edges: [7 mm, 8 mm], smallest: 0.2 mm, largest: 1 mm}"));
  CHECK(run(folder, {"size", "block.yaml", "--no-pack", "--json"}).out ==
        run(folder, {"size", "block.yaml", "--no-pack", "--json"}).out);
}
