#include "crash_case/sample_case.hpp"
#include "verdict/limit_words.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <vector>

using namespace crushwright;

namespace {

const std::filesystem::path source = CRUSHWRIGHT_SOURCE_DIR;

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  REQUIRE(stream);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// Words in quotes inside every brace that follows one of the calls, in a reader's source.
std::set<std::string> listed_words(const std::string& text, const std::string& call) {
  std::set<std::string> words;
  const std::regex list(call + R"(\(\s*[^{};]*\{([^{}]*)\})"), word(R"rx("([a-z_0-9]+)")rx");
  for (std::sregex_iterator at(text.begin(), text.end(), list), end; at != end; ++at) {
    const std::string inside = (*at)[1];
    for (std::sregex_iterator each(inside.begin(), inside.end(), word); each != end; ++each)
      words.insert((*each)[1]);
  }
  return words;
}

std::vector<std::filesystem::path> reader_sources() {
  std::vector<std::filesystem::path> files;
  for (const char* room : {"envelope", "packaging", "verdict", "printability", "load_path", "column_check"})
    for (const auto& entry : std::filesystem::directory_iterator(source / "src" / room))
      if (entry.path().filename().string().find("_reader.cpp") != std::string::npos)
        files.push_back(entry.path());
  for (const auto& entry : std::filesystem::directory_iterator(source / "src/crash_case"))
    if (entry.path().extension() == ".cpp")
      files.push_back(entry.path());
  return files;
}

std::vector<std::string> examples(const std::string& page) {
  std::vector<std::string> found;
  const std::string begin = "```yaml\n", end = "```";
  for (std::size_t at = page.find(begin); at != std::string::npos; at = page.find(begin, at)) {
    at += begin.size();
    found.push_back(page.substr(at, page.find(end, at) - at));
    at += found.back().size();
  }
  return found;
}

/// The blocks of a file by their top-level key.
std::map<std::string, std::string> blocks(const std::string& text) {
  std::map<std::string, std::string> found;
  std::istringstream lines(text);
  std::string key;
  for (std::string line; std::getline(lines, line);) {
    if (!line.empty() && line[0] != ' ')
      key = line.substr(0, line.find(':'));
    found[key] += line + "\n";
  }
  return found;
}

/// A whole case: the page's first example, with the blocks of another put in the place of its own.
std::string completed(const std::string& whole, const std::string& example) {
  std::map<std::string, std::string> put_together = blocks(whole);
  for (const auto& [key, text] : blocks(example))
    put_together[key] = text;
  // Limits speak of structures and impacts, so those of the first example go where these change.
  if (blocks(example).count("limits") == 0 && example != whole)
    put_together.erase("limits");
  std::string text = put_together.at("schema");
  for (const auto& [key, block] : put_together)
    if (key != "schema")
      text += block;
  return text;
}

} // namespace

TEST_CASE("the page of the case format names every key and every word that the readers accept") {
  const std::string page = bytes_of(source / "docs/case_format.md");
  std::size_t count = 0;
  for (const std::filesystem::path& file : reader_sources()) {
    const std::string text = bytes_of(file);
    std::set<std::string> words = listed_words(text, "allow");
    words.merge(listed_words(text, "choice"));
    words.merge(listed_words(text, "choice_or"));
    for (const std::string& word : words) {
      // The long form of a value is described with the units.
      if (word == "value" || word == "low" || word == "high" || word == "coefficient_of_variation" ||
          word == "source" || word == "standing")
        continue;
      INFO(file.filename().string() << ": " << word);
      CHECK((page.find("`" + word + "`") != std::string::npos || page.find("`" + word + ":") != std::string::npos));
      ++count;
    }
  }
  CHECK(count > 80);
  const auto named = [&](const auto& words) {
    for (const auto& [value, word] : words) {
      INFO(word);
      CHECK(page.find("`" + word + "`") != std::string::npos);
    }
  };
  named(quantity_words());
  named(statistic_words());
  named(status_words());
}

TEST_CASE("every example of the page of the case format can be read") {
  const std::vector<std::string> found = examples(bytes_of(source / "docs/case_format.md"));
  REQUIRE(found.size() >= 6);
  for (const std::string& example : found) {
    const std::string text = completed(found.front(), example);
    INFO(text);
    CHECK(sample_case::message(text) == "no error");
  }
}
