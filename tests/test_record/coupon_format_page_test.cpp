#include "crushwright/test_record.hpp"
#include "test_record/specimen_facts.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>

using namespace crushwright;

namespace {

const std::filesystem::path source = CRUSHWRIGHT_SOURCE_DIR;

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  REQUIRE(stream);
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::string example(const std::string& page, const std::string& language) {
  const std::string begin = "```" + language + "\n";
  const std::size_t at = page.find(begin);
  REQUIRE(at != std::string::npos);
  return page.substr(at + begin.size(), page.find("```", at + begin.size()) - at - begin.size());
}

} // namespace

TEST_CASE("the example of the page of test files is read as it stands") {
  const std::string page = bytes_of(source / "docs/coupon_format.md");
  const std::filesystem::path folder = std::filesystem::temp_directory_path() / "crushwright_coupon_page";
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "A1.csv", std::ios::binary) << example(page, "csv");
  std::ofstream(folder / "series.yaml", std::ios::binary) << example(page, "yaml");
  const TestSeries series = read_test_series(folder / "series.yaml");
  std::filesystem::remove_all(folder);
  REQUIRE(series.records.size() == 2);
  CHECK(series.plateau_window == std::vector<double>{0.2, 0.4});
  CHECK(series.records[0].specimen.area.value() == Approx(400e-6));
  CHECK(series.records[0].points.back().load == 6310);
  CHECK(series.records[0].has_time);
  CHECK(series.records[1].specimen.id == "A1-again");
  CHECK(series.records[1].specimen.height.value() == Approx(20.1e-3));
}

TEST_CASE("the page of test files names every key and word that the readers accept") {
  const std::string page = bytes_of(source / "docs/coupon_format.md");
  std::set<std::string> words(fact_keys().begin(), fact_keys().end());
  words.insert(table_keys().begin(), table_keys().end());
  const std::regex list(R"((allow|choice|allow_keys)\(\s*[^{};]*\{([^{}]*)\})"), word(R"rx("([a-z_0-9]+)")rx");
  for (const char* file : {"src/test_record/specimen_facts.cpp", "src/test_record/test_series.cpp"}) {
    const std::string text = bytes_of(source / file);
    for (std::sregex_iterator at(text.begin(), text.end(), list), end; at != end; ++at) {
      const std::string inside = (*at)[2];
      for (std::sregex_iterator each(inside.begin(), inside.end(), word); each != end; ++each)
        words.insert((*each)[1]);
    }
  }
  CHECK(words.size() > 35);
  for (const std::string& each : words) {
    CAPTURE(each);
    CHECK(page.find("`" + each + "`") != std::string::npos);
  }
}
