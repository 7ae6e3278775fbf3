#include "command_line/command_estimate.hpp"

#include "crushwright/errors.hpp"
#include "result_file/channel_folder.hpp"
#include "result_file/result_document.hpp"
#include "review_pack/verdict_text.hpp"

#include <filesystem>

#include <fmt/format.h>

namespace crushwright {

namespace {

namespace fs = std::filesystem;

/// Whether one folder is the other or lies in it.
bool is_within(const fs::path& inner, const fs::path& outer) {
  const fs::path a = fs::weakly_canonical(fs::absolute(inner)), b = fs::weakly_canonical(fs::absolute(outer));
  const fs::path way = a.lexically_relative(b);
  return !way.empty() && *way.begin() != "..";
}

/// Refuses a folder for histories before anything is written.
void check_histories_folder(const CommandOptions& options, const CommandInput& input) {
  const std::string& folder = *options.histories_folder;
  require_histories_folder(folder);
  const std::string pack = pack_folder_of(options, input);
  if (!options.no_pack && (is_within(folder, pack) || is_within(pack, folder))) {
    throw InputError(fmt::format("{}: the histories cannot be written here: the review pack goes to {}, and each of "
                                 "the two replaces its folder whole.\nName a folder beside the review pack.",
                                 folder, pack));
  }
}

std::vector<PackFile> histories_files(const std::vector<ChannelFolder>& impacts) {
  std::vector<PackFile> files;
  for (const ChannelFolder& impact : impacts) {
    for (PackFile& file : channel_files(impact)) {
      files.push_back(std::move(file));
    }
  }
  return files;
}

void warn_of_unsure(const std::vector<ChannelFolder>& impacts) {
  const std::vector<std::string> unsure = unsure_channels(impacts);
  if (!unsure.empty()) {
    fmt::print(stderr,
               "warning: the channel codes of these histories have parts that are not known, written as \"?\";\n"
               "fill them in before a program that sorts by code reads them:\n  {}\n",
               fmt::join(unsure, "\n  "));
  }
}

} // namespace

ExitCode command_estimate(const CommandOptions& options) {
  const CommandInput input = read_input(options);
  if (options.histories_folder) {
    check_histories_folder(options, input);
  }
  const Estimate result = estimate(input.crash_case, input.catalogue);
  // Document and histories are made first: a result with a value that is not finite leaves no pack.
  const std::string document = result_document(input.crash_case, result, provenance_of(input));
  const std::vector<ChannelFolder> impacts =
      options.histories_folder ? channel_folders(result) : std::vector<ChannelFolder>{};
  const std::vector<PackFile> histories = histories_files(impacts);
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
    write_histories_folder(*options.histories_folder, histories);
    warn_of_unsure(impacts);
    text += fmt::format("Histories: {}\n", *options.histories_folder);
  }
  print_result(options, document, text);
  return exit_code_of(result.deciding.verdict.word);
}

} // namespace crushwright
