#include "command_line/command_size.hpp"

#include "command_line/sizing_text.hpp"
#include "result_file/result_document.hpp"

namespace crushwright {

ExitCode command_size(const CommandOptions& options) {
  const CommandInput input = read_input(options);
  Alternatives alternatives;
  alternatives.sizing = size_case(input.crash_case, input.catalogue);
  const SizingResult& sizing = *alternatives.sizing;
  const std::string document = result_document(input.crash_case, sizing, provenance_of(input));
  std::string pack_line;
  if (!options.no_pack) {
    pack_line = write_pack(options, input, estimate(input.crash_case, input.catalogue), alternatives);
  }
  std::string text = sizing_text(input.crash_case, sizing);
  if (!pack_line.empty()) {
    text += "\nThe pack shows the case as it stands, with this search among the alternatives.\n" + pack_line;
  }
  print_result(options, document, text);
  return sizing.found ? ExitCode::pass : ExitCode::not_passed;
}

} // namespace crushwright
