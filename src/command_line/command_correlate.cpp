#include "command_line/command_correlate.hpp"

#include "command_line/option_value.hpp"
#include "command_line/program_version.hpp"
#include "crushwright/component_test.hpp"
#include "crushwright/errors.hpp"
#include "result_file/correlation_document.hpp"
#include "result_file/file_set.hpp"
#include "review_pack/correlation_page.hpp"
#include "review_pack/text_table.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

namespace crushwright {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t width = 100;

TestRecord only_record(const std::string& file) {
  std::vector<TestRecord> records = read_test_file(file, TableOptions{}, SpecimenFacts{});
  if (records.size() != 1) {
    throw InputError(
        fmt::format("{}: the file holds {} specimens; one component is compared at a time\n   Part the file, one "
                    "specimen in each.",
                    file, records.size()));
  }
  return records.front();
}

std::optional<double> filter_width(const std::optional<std::string>& text) {
  if (!text) {
    return std::nullopt;
  }
  const double value = option_value("correlate", "--filter", *text, Dimension::length);
  if (!(value > 0)) {
    refuse_option("correlate", fmt::format("--filter {}: a width is above 0", *text), "Write for instance \"5 mm\".");
  }
  return value;
}

std::string bytes_of(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

std::string text_of(const CrashCase& crash_case, const ComponentComparison& comparison) {
  std::string text =
      fmt::format("{} of {} beside the test {}\n", comparison.structure, crash_case.id, comparison.specimen);
  for (const std::string& sentence : correlation_sentences(comparison)) {
    text += wrapped("  " + sentence, width, 4);
  }
  const CurveRating& rating = comparison.correlation.rating;
  text += fmt::format("  Parts of the rating: corridor {:.2f}, phase {:.2f}, magnitude {:.2f}, slope {:.2f}.\n",
                      rating.corridor, rating.phase, rating.magnitude, rating.slope);
  for (const std::vector<std::string>* list : {&comparison.remarks, &comparison.correlation.warnings}) {
    for (const std::string& sentence : *list) {
      text += wrapped("  - " + sentence, width, 4);
    }
  }
  return text;
}

std::string write_correlation(const CommandOptions& options, const CrashCase& crash_case,
                              const ComponentComparison& comparison, const std::string& document) {
  if (options.no_pack) {
    return "";
  }
  const std::string folder = options.pack_folder.value_or(file_name_part(crash_case.id) + "_correlation");
  write_pack_folder(folder, {{"correlation.html", correlation_page(crash_case, comparison, program_version())},
                             {"result.json", document}});
  return fmt::format("Page: {}\n", (fs::path(folder) / "correlation.html").generic_string());
}

} // namespace

ExitCode command_correlate(const CommandOptions& options, const CorrelateOptions& correlate_options) {
  const std::optional<double> filter = filter_width(correlate_options.filter);
  const TestRecord record = only_record(correlate_options.data_file);
  const CommandInput input = read_input(options);
  const Estimate result = estimate(input.crash_case, input.catalogue);
  ComponentComparison comparison;
  try {
    comparison = compared_component(result, correlate_options.structure, record, filter);
  } catch (const OutOfDomain& fault) {
    throw InputError(fmt::format("{}: {}\n   Give force and crush of the same structure, in the same direction.",
                                 correlate_options.data_file, fault.what()));
  }
  Provenance provenance = provenance_of(input);
  provenance.input_hash = sha256(provenance.input_hash + bytes_of(correlate_options.data_file) +
                                 correlate_options.structure + correlate_options.filter.value_or(""));
  // The document is made first: a result with a value that is not finite leaves nothing behind.
  const std::string document = correlation_document(input.crash_case, comparison, provenance);
  const std::string page = write_correlation(options, input.crash_case, comparison, document);
  print_result(options, document, text_of(input.crash_case, comparison) + (page.empty() ? "" : "\n" + page));
  return ExitCode::pass;
}

} // namespace crushwright
