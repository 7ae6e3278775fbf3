#include "command_line/command_compare.hpp"

#include "command_line/comparison_text.hpp"
#include "result_file/result_document.hpp"

#include <algorithm>

namespace crushwright {

namespace {

bool any_passes(const ComparisonResult& comparison) {
  const auto passes = [](const Candidate& candidate) { return candidate.feasible; };
  return std::any_of(comparison.sized.begin(), comparison.sized.end(), passes) ||
         std::any_of(comparison.fixed.begin(), comparison.fixed.end(), passes) ||
         std::any_of(comparison.baselines.begin(), comparison.baselines.end(), passes);
}

} // namespace

ExitCode command_compare(const CommandOptions& options) {
  const CommandInput input = read_input(options);
  Alternatives alternatives;
  alternatives.comparison = compare_case(input.crash_case, input.catalogue);
  const ComparisonResult& comparison = *alternatives.comparison;
  const std::string document = result_document(input.crash_case, comparison, provenance_of(input));
  std::string pack_line;
  if (!options.no_pack) {
    pack_line = write_pack(options, input, estimate(input.crash_case, input.catalogue), alternatives);
  }
  std::string text = comparison_text(input.crash_case, comparison);
  if (!pack_line.empty()) {
    text += "\nThe pack shows the case as it stands, with this comparison among the alternatives.\n" + pack_line;
  }
  print_result(options, document, text);
  return any_passes(comparison) ? ExitCode::pass : ExitCode::not_passed;
}

} // namespace crushwright
