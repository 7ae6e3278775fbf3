#include "review_pack/sample_estimate.hpp"
#include "review_pack/verdict_text.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

using namespace crushwright;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) {
    lines.push_back(line);
  }
  return lines;
}

std::ptrdiff_t characters(const std::string& line) {
  return std::count_if(line.begin(), line.end(),
                       [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
}

} // namespace

TEST_CASE("the terminal report opens with the word, the count and what governs") {
  const std::vector<std::string> lines = lines_of(verdict_text(hand_made::crash_case(), hand_made::estimate()));
  CHECK(lines.at(0) == "FAIL  Two tapered bodies either side of an outlet");
  CHECK(lines.at(1) == "1 of 8 limits fails at nominal; 2 more are open.");
  CHECK(lines.at(2).rfind("Governing: stroke used of left in offset, 104 % against at most 90 % on the weak side;",
                          0) == 0);
}

TEST_CASE("the terminal report stays within 100 columns and names every check, impact and warning") {
  const Estimate estimate = hand_made::estimate();
  const std::string text = verdict_text(hand_made::crash_case(), estimate);
  for (const std::string& line : lines_of(text)) {
    INFO(line);
    CHECK(characters(line) <= 100);
  }
  for (const Check& check : estimate.deciding.verdict.checks) {
    CHECK(text.find(check.limit.id) != std::string::npos);
  }
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    CHECK(text.find(impact.id) != std::string::npos);
  }
  CHECK(text.find("replace it with coupons of your own build") != std::string::npos);
  CHECK(text.find("qualified test laboratory") != std::string::npos);
}

TEST_CASE("the terminal report shows the stacked result beside each check and says that it does not decide") {
  Estimate estimate = hand_made::estimate();
  estimate.deciding.verdict.checks[1].stacked_holds = false;
  const std::string text = verdict_text(hand_made::crash_case(), estimate);
  for (const std::string& line : lines_of(text)) {
    if (line.find("  pass  car_pulse ") == 0) {
      CHECK(line.substr(line.size() - 6) == "misses");
    }
    if (line.find("  pass  tip_only ") == 0) {
      CHECK(line.substr(line.size() - 5) == "holds");
    }
  }
  CHECK(text.find("  pass  car_pulse ") != std::string::npos);
  CHECK(text.find("  pass  tip_only ") != std::string::npos);
  CHECK(text.find("\n  Stacked: every independent scatter at its worst together;") != std::string::npos);
}

TEST_CASE("the terminal report says what the case leaves unchecked") {
  const std::string text = verdict_text(hand_made::crash_case(), hand_made::estimate());
  CHECK(text.find("Not stated in the case, so not checked: an oblique force (`force_angle`), service loads,") !=
        std::string::npos);
}

TEST_CASE("the terminal report says pass, open or fail as the verdict does") {
  Estimate estimate = hand_made::estimate();
  for (Check& check : estimate.deciding.verdict.checks) {
    check.word = Word::pass;
  }
  estimate.deciding.verdict.word = Word::pass;
  CHECK(lines_of(verdict_text(hand_made::crash_case(), estimate)).at(1) ==
        "All 8 limits hold on the weak, the nominal and the strong side.");
  estimate.deciding.verdict.checks[0].word = Word::open;
  estimate.deciding.verdict.word = Word::open;
  CHECK(lines_of(verdict_text(hand_made::crash_case(), estimate)).at(1) ==
        "No limit fails at nominal, but 1 of 8 is not shown to hold on every side.");
}
