#include "review_pack/print_words.hpp"
#include "review_pack/review_pack.hpp"
#include "review_pack/sample_estimate.hpp"
#include "review_pack/verdict_text.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

CrashCase printed_case() {
  CrashCase printed = hand_made::crash_case();
  printed.printing = PrintingInput{};
  printed.printing->machine.build_volume = {0.25, 0.25, 0.3};
  printed.printing->machine.self_supporting_angle.value = 0.7853981633974483;
  printed.printing->machine.longest_span = hand_made::quantity(2e-3, Dimension::length, "");
  printed.printing->rates = PrintRates{};
  printed.printing->rates->currency = "crowns";
  return printed;
}

PrintFigures figures() {
  PrintFigures made;
  made.lattice = {12, 4, 0.7, 8, 2};
  made.share_of = "strut length";
  made.longest_span = 8.4e-3;
  made.overhang = {0.2, 0.01, 0.03, 0.012};
  made.thinnest = 0.8e-3;
  made.thinnest_name = "skin";
  made.escape = {true, 0, false, "skin and end plates enclose the powder and no escape_hole is stated"};
  made.fit_judged = true;
  made.pieces = {{0, 0.26, 0.26, {0.11, 0.12}, 0}, {0.26, 0.52, 0.26, {0.13, 0.14}, 0}};
  made.joints = {{0.26, 0.0156, 0.41, 72000, 48000}};
  made.build_height = 0.26;
  made.volume = 900e-6;
  made.mass = 2.4;
  made.time = 45 * 3600.0;
  made.cost = 2345.6;
  made.faults = {"Powder is trapped: skin and end plates enclose the powder and no escape_hole is stated."};
  return made;
}

Estimate printed_estimate() {
  Estimate printed = hand_made::estimate();
  printed.structures.front().printing = figures();
  BestDirection best;
  best.direction = {0, 0, 1};
  best.trouble = {1, 0.21, true, 3};
  best.tried = 322;
  printed.structures.front().print_direction = best;
  return printed;
}

} // namespace

TEST_CASE("each figure of printing stands beside what the machine asks") {
  const std::vector<PrintLine> lines = print_lines(printed_case(), printed_estimate().structures.front());
  const auto line = [&](const std::string& what) {
    for (const PrintLine& each : lines)
      if (each.what == what)
        return each.value + " | " + each.against;
    return std::string("none");
  };
  CHECK(line("build direction") == "-x | ");
  CHECK(line("self-supporting angle") == "45 ° | ");
  CHECK(line("lattice below the self-supporting angle, of strut length") == "33.33 % | ");
  CHECK(line("longest span of the lattice") == "8.4 mm | at most 2 mm");
  CHECK(line("nodes of a cell that nothing carries from below") == "2 of 8 | ");
  CHECK(line("way out for powder") == "none: skin and end plates enclose the powder and no escape_hole is stated | ");
  CHECK(line("fits the machine") == "in 2 pieces; footprint 130 mm by 140 mm | machine 250 mm by 250 mm by 300 mm");
  CHECK(line("build time") == "45 h | ");
  CHECK(line("build cost") == "2346 crowns | ");
}

TEST_CASE("a better build direction is suggested with what it leaves hanging") {
  CHECK(direction_sentence(printed_estimate().structures.front()) ==
        "Least trouble of 322 build directions tried: +z, where 21 % of lattice and skin hang over.");
  StructureModel content = printed_estimate().structures.front();
  content.print_direction->direction = {-1, 0, 0};
  CHECK(direction_sentence(content) == "Of 322 build directions tried none has less trouble than this one.");
}

TEST_CASE("a joint's capacity stands beside the force of its section, with what is not judged") {
  const std::vector<std::string> sentences = split_sentences(printed_estimate().structures.front());
  REQUIRE(sentences.size() == 2);
  CHECK(sentences[0] ==
        "Joint at station 260 mm: flanges and bolts 0.41 kg; bolts carry 72 kN, the section crushes at 48 kN.");
  CHECK(contains(sentences[1], "not judged"));
}

TEST_CASE("page and terminal tell of printing, its faults and the danger of powder") {
  const std::string page =
      review_page(printed_case(), printed_estimate(), {"0.1.0", "0123456789abcdef"}, {hand_made::material()}, {});
  CHECK(contains(page, "<section id=\"printing\">"));
  CHECK(contains(page, "Powder is trapped"));
  CHECK(contains(page, "Metal powder burns"));
  const std::string text = verdict_text(printed_case(), printed_estimate());
  CHECK(contains(text, "\nPrinting of " + printed_estimate().structures.front().id + "\n"));
  CHECK(contains(text, "Metal powder burns"));
}

TEST_CASE("a case without printing has no such section") {
  const std::string page = review_page(hand_made::crash_case(), hand_made::estimate(), {"0.1.0", "0123456789abcdef"},
                                       {hand_made::material()}, {});
  CHECK_FALSE(contains(page, "id=\"printing\""));
  CHECK_FALSE(contains(verdict_text(hand_made::crash_case(), hand_made::estimate()), "Printing of"));
}
