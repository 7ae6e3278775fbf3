#include "command_line/command_estimate.hpp"

#include "result_file/channel_folder.hpp"
#include "result_file/result_document.hpp"
#include "review_pack/verdict_text.hpp"

#include <fmt/format.h>

namespace crushwright {

namespace {

/// @return  the line that says where the channels are.
std::string write_histories(const std::string& folder, const std::vector<ChannelFolder>& impacts) {
  std::vector<PackFile> files;
  for (const ChannelFolder& impact : impacts) {
    for (PackFile& file : channel_files(impact)) {
      files.push_back(std::move(file));
    }
  }
  write_new_folder(folder, files);
  const std::vector<std::string> unsure = unsure_channels(impacts);
  if (!unsure.empty()) {
    fmt::print(stderr,
               "warning: the channel codes of these histories have parts that are not known, written as \"?\";\n"
               "fill them in before a program that sorts by code reads them:\n  {}\n",
               fmt::join(unsure, "\n  "));
  }
  return fmt::format("Histories: {}\n", folder);
}

} // namespace

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
  if (options.histories_folder) {
    if (pack_line.empty()) {
      text += '\n';
    }
    text += write_histories(*options.histories_folder, channel_folders(result));
  }
  print_result(options, document, text);
  return exit_code_of(result.deciding.verdict.word);
}

} // namespace crushwright
