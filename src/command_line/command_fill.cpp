#include "command_line/command_fill.hpp"

#include "command_line/fill_files.hpp"
#include "command_line/fill_text.hpp"
#include "command_line/option_value.hpp"
#include "command_line/program_version.hpp"
#include "result_file/file_set.hpp"
#include "result_file/fill_document.hpp"
#include "review_pack/fill_page.hpp"

#include <algorithm>
#include <filesystem>
#include <spdlog/spdlog.h>

#include <fmt/format.h>

namespace crushwright {
namespace {

double length_option(const char* option, const std::optional<std::string>& text) {
  if (!text)
    return 0;
  const double value = option_value("fill", option, *text, Dimension::length);
  if (!(value > 0))
    refuse_option("fill", fmt::format("{} {}: a length over 0 was expected", option, *text),
                  "Write for instance \"0.3 mm\".");
  return value;
}

SolidOptions solid_options(const FillOptions& fill) {
  if (!fill.solid && (fill.spacing || fill.block || !fill.between.empty()))
    refuse_option("fill", "--spacing, --block and --between are of the closed surface that --solid writes",
                  "Add --solid, or leave them out.");
  SolidOptions options{fill.solid, length_option("--spacing", fill.spacing), length_option("--block", fill.block),
                       std::nullopt};
  if (!fill.between.empty()) {
    options.between = Range{option_value("fill", "--between", fill.between.at(0), Dimension::length),
                            option_value("fill", "--between", fill.between.at(1), Dimension::length)};
    if (!(options.between->low < options.between->high))
      refuse_option("fill", "--between: the second station has to lie beyond the first",
                    "Write for instance --between \"100 mm\" \"130 mm\".");
  }
  return options;
}

/// The named structure, or all that are no mirror and have a lattice.
std::vector<std::string> wanted_structures(const CommandInput& input, const FillOptions& fill) {
  if (fill.structure)
    return {*fill.structure};
  std::vector<std::string> ids;
  for (const StructureInput& each : input.crash_case.structures)
    if (each.mirror_of.empty() && each.lattice)
      ids.push_back(each.id);
  if (ids.empty())
    fail_in_case(input.crash_case, "structures", "no structure of the case has a lattice to be placed",
                 "Add a `lattice:` block to one.");
  return ids;
}

FillReview review_of(const CommandInput& input, const FillOptions& fill, const std::string& id) {
  FillReview review;
  review.filled = filled_structure(input.crash_case, input.catalogue, id);
  review.printing = input.crash_case.printing;
  if (fill.best_direction && !review.printing)
    fail_in_case(input.crash_case, "", "--best-direction needs to know the machine, and the case has no `printing:`",
                 "Add a block `printing:` (docs/case_format.md), or leave the option out.");
  if (!review.printing)
    return review;
  const PrintedBody body = review.filled.printed_body();
  review.print = print_figures(body, *review.printing);
  if (fill.best_direction)
    review.best = best_direction(body, *review.printing);
  return review;
}

const StructureModel& model_of(const std::vector<StructureModel>& models, const std::string& id) {
  return *std::find_if(models.begin(), models.end(), [&](const StructureModel& each) { return each.id == id; });
}

std::string written(const CommandOptions& options, const CommandInput& input, const std::vector<FillReview>& reviews,
                    const std::string& document, std::vector<PackFile> files) {
  if (options.no_pack)
    return "";
  const std::string folder = options.pack_folder.value_or(input.crash_case.id + "_fill");
  files.push_back({"fill.html", fill_page(input.crash_case, reviews, program_version())});
  files.push_back({"result.json", document});
  write_pack_folder(folder, files);
  spdlog::debug("files of the lattice written to {}", folder);
  return fmt::format("Page: {}\n", (std::filesystem::path(folder) / "fill.html").generic_string());
}

} // namespace

ExitCode command_fill(const CommandOptions& options, const FillOptions& fill) {
  const SolidOptions solid = solid_options(fill);
  const CommandInput input = read_input(options);
  const std::vector<StructureModel> models = structure_models(input.crash_case, input.catalogue);
  std::vector<FillReview> reviews;
  std::vector<PackFile> files;
  for (const std::string& id : wanted_structures(input, fill)) {
    reviews.push_back(review_of(input, fill, id));
    FillReview& review = reviews.back();
    const StructureModel& model = model_of(models, review.filled.id);
    review.layers = model.layers;
    if (options.no_pack)
      continue;
    for (ShapeFile& shape : geometry_files(review.filled, model, solid)) {
      review.written_files.push_back(fmt::format("{}: {}", shape.file.name, shape.what));
      files.push_back(std::move(shape.file));
    }
  }
  std::vector<FillResult> results;
  for (const FillReview& review : reviews)
    results.push_back({&review.filled, review.print ? &*review.print : nullptr, review.best ? &*review.best : nullptr,
                       review.printing && review.printing->rates ? review.printing->rates->currency : "",
                       review.written_files});
  // The document is made first: a result with a value that is not finite leaves nothing behind.
  const std::string document = fill_document(input.crash_case, results, provenance_of(input));
  const std::string page_line = written(options, input, reviews, document, std::move(files));
  print_result(options, document, fill_text(input.crash_case, reviews) + page_line);
  return ExitCode::pass;
}

} // namespace crushwright
