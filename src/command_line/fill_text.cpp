#include "command_line/fill_text.hpp"

#include "review_pack/text_table.hpp"

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr std::size_t text_width = 100;

std::string block(const char* title, const std::vector<Fact>& facts) {
  if (facts.empty())
    return "";
  std::vector<std::vector<std::string>> rows{{title, ""}};
  for (const Fact& fact : facts)
    rows.push_back({fmt::format("  {}", fact.name), fact.value});
  return text_table({false, true}, rows) + "\n";
}

std::string list(const char* title, const std::vector<std::string>& sentences) {
  if (sentences.empty())
    return "";
  std::string text = fmt::format("{}\n", title);
  for (const std::string& sentence : sentences)
    text += wrapped(fmt::format("  - {}", sentence), text_width, 4);
  return text + "\n";
}

} // namespace

std::string fill_text(const CrashCase& crash_case, const std::vector<FillReview>& reviews) {
  std::string text = fmt::format("{}{}\n\n", crash_case.title, crash_case.invented ? " (data invented)" : "");
  for (const FillReview& review : reviews) {
    text += fmt::format("{}\n", review.filled.id);
    text += block("Lattice", lattice_facts(review.filled));
    text += block("Mass", mass_facts(review.filled));
    text += block("Printing", print_facts(review));
    text += list("Notes", fill_notes(review));
    text += list("Files", review.written_files);
  }
  return text;
}

} // namespace crushwright
