#include "command_line/command_estimate.hpp"

#include "result_file/result_document.hpp"
#include "review_pack/verdict_text.hpp"

namespace crushwright {

ExitCode command_estimate(const CommandOptions& options) {
  const CommandInput input = read_input(options);
  const Estimate result = estimate(input.crash_case, input.catalogue);
  // The document is made first: a result with a value that is not finite leaves no pack.
  const std::string document = result_document(input.crash_case, result, provenance_of(input));
  const std::string pack_line = write_pack(
      options, input, result, {}, options.no_pack ? std::vector<FilledStructure>{} : filled_structures(input));
  std::string text = verdict_text(input.crash_case, result);
  if (!pack_line.empty()) {
    text += '\n' + pack_line;
  }
  print_result(options, document, text);
  return exit_code_of(result.deciding.verdict.word);
}

} // namespace crushwright
