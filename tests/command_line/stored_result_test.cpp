#include "command_line/stored_result.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <fstream>

using namespace stored_result;

TEST_CASE("every case gives its stored result") {
  REQUIRE(case_files().size() >= 4);
  for (const std::filesystem::path& file : case_files()) {
    std::ifstream stream(result_file(file));
    INFO(result_file(file).string() << " (scripts/update_results writes it)");
    REQUIRE(stream);
    const std::vector<std::string> found = differences(Json::parse(stream), computed(file));
    INFO(fmt::format(
        "{}", fmt::join(found.begin(), found.begin() + std::min<std::ptrdiff_t>(40, std::ssize(found)), "\n")));
    CHECK(found.empty());
  }
}

TEST_CASE("a comparison names each place that differs, with both values") {
  const Json stored = Json::parse(R"({"mass": 2.0, "word": "pass", "a/b": [0, 1, 100], "gone": 1})");
  CHECK(differences(stored, stored).empty());
  CHECK(
      differences(stored, Json::parse(R"({"mass": 2.00000001, "word": "open", "a/b": [0, 1, 101, 5], "new": 2})")) ==
      std::vector<std::string>{"/mass: stored 2.0, now 2.00000001", "/word: stored \"pass\", now \"open\"",
                               "/a~1b: stored 3 items, now 4 items", "/a~1b/2: stored 100, now 101",
                               "/gone: stored 1, now nothing", "/new: stored nothing, now 2"});
}

TEST_CASE("numbers within 1e-9 of each other are the same, in a series within 1e-9 of its largest") {
  const auto differ = [](const char* stored, const char* now) {
    return !differences(Json::parse(stored), Json::parse(now)).empty();
  };
  CHECK_FALSE(differ("1.0", "1.0000000005"));
  CHECK(differ("1.0", "1.000000002"));
  CHECK(differ("0.0", "1e-15"));
  CHECK_FALSE(differ("[0.0, 1000.0]", "[1e-10, 1000.0]"));
  CHECK(differ("[0.0, 1000.0]", "[1e-5, 1000.0]"));
  CHECK(differ("null", "0"));
}
