#include "command_line/command_coupon.hpp"

#include "command_line/catalogue_folders.hpp"
#include "command_line/coupon_series_input.hpp"
#include "command_line/coupon_text.hpp"
#include "command_line/option_value.hpp"
#include "command_line/program_version.hpp"
#include "crushwright/cell_property.hpp"
#include "crushwright/coupon_count.hpp"
#include "crushwright/coupon_prediction.hpp"
#include "crushwright/errors.hpp"
#include "result_file/catalogue_entry.hpp"
#include "result_file/coupon_document.hpp"
#include "result_file/coupon_laws.hpp"
#include "result_file/file_set.hpp"
#include "review_pack/coupon_page.hpp"
#include "review_pack/verdict_words.hpp"
#include "yaml_input/mapping.hpp"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

namespace crushwright {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const std::string& what, const std::string& what_to_do) {
  refuse_option("coupon", what, what_to_do);
}

/// An entry of the catalogue that takes what was measured, before and after.
struct Entry {
  std::string name; ///< "unit_cells/kelvin.yaml"
  std::string text;
};

std::string text_of(const Catalogue& catalogue, const std::string& name) {
  for (const auto& [file, bytes] : catalogue.files_used()) {
    if (file == name) {
      return bytes;
    }
  }
  throw std::logic_error("a catalogue entry that was read is not kept");
}

BaseValues base_values(const BaseMaterial* material) {
  BaseValues base;
  const auto value = [](const std::optional<Quantity>& quantity) {
    return quantity ? std::optional(quantity->value) : std::nullopt;
  };
  if (material != nullptr) {
    base.density = value(material->density);
    base.youngs_modulus = value(material->youngs_modulus);
    base.proof_stress = value(material->proof_stress);
  }
  return base;
}

/// Mean stated or weighed density of the specimens; nothing without one.
std::optional<double> mean_density(const TestSeries& series, const BaseValues& base) {
  double sum = 0;
  int count = 0;
  for (const TestRecord& record : series.records) {
    const SpecimenFacts& facts = record.specimen;
    std::optional<double> density = facts.relative_density;
    if (!density && facts.mass && facts.area && facts.height && base.density) {
      density = *facts.mass / (*facts.area * *facts.height) / *base.density;
    }
    if (density && *density > 0 && *density < 1) {
      sum += *density;
      ++count;
    }
  }
  return count > 0 ? std::optional(sum / count) : std::nullopt;
}

/// Exponent of the best other evidence, for a series of one density.
std::optional<double> exponent_elsewhere(const TestSeries& series, const Catalogue& catalogue,
                                         const BaseValues& base) {
  const std::optional<double> density = mean_density(series, base);
  if (series.cell.empty() || series.material.empty() || !density) {
    return std::nullopt;
  }
  const Catalogue others = catalogue.without(Evidence::measured);
  try {
    return choose_laws(others.cell(series.cell), others.material(series.material),
                       series.direction.empty() ? "100" : series.direction, *density)
        .plateau_stress.exponent;
  } catch (const OutOfDomain&) {
    return std::nullopt; // no law serves; a series of one density then gives none
  }
}

/// What the catalogue says without measured laws, specimen by specimen; where it says nothing, nothing stands.
std::vector<SpecimenPrediction> predictions_of(const CouponReport& report, const Catalogue& catalogue) {
  std::vector<SpecimenPrediction> predictions;
  if (report.cell.empty() || report.material.empty()) {
    return predictions;
  }
  const Catalogue others = catalogue.without(Evidence::measured);
  for (const ReducedSpecimen& specimen : report.specimens) {
    if (!specimen.relative_density) {
      continue;
    }
    try {
      const CellProperties properties =
          cell_properties(others.cell(report.cell), others.material(report.material),
                          report.direction.empty() ? "100" : report.direction, *specimen.relative_density);
      predictions.push_back(predicted_specimen(specimen, properties, report.plateau_from, report.plateau_to));
    } catch (const OutOfDomain&) {
      // A density that no law reaches: the report's own numbers stand alone.
    }
  }
  return predictions;
}

CouponResult result_of(const TestSeries& series, const Catalogue& catalogue) {
  CouponResult result;
  if (series.kind != TestKind::lattice_compression) {
    result.metal = metal_report(series);
    return result;
  }
  const BaseMaterial* material = series.material.empty() ? nullptr : &catalogue.material(series.material);
  const BaseValues base = base_values(material);
  if (!series.cell.empty()) {
    catalogue.cell(series.cell);
  }
  result.lattice = coupon_report(series, base, exponent_elsewhere(series, catalogue, base));
  result.predictions = predictions_of(*result.lattice, catalogue);
  return result;
}

void require_writable(const TestSeries& series) {
  if (series.material.empty() || (series.kind == TestKind::lattice_compression && series.cell.empty())) {
    refuse("--write and --case carry the tests on to an entry of the catalogue, and none is named",
           series.kind == TestKind::lattice_compression
               ? "State `cell`, `direction` and `material` in the description, or --cell, --direction and --material."
               : "State `material` in the description, or --material.");
  }
  if (series.kind == TestKind::lattice_compression && series.direction.empty()) {
    refuse("--write and --case need the direction of the load in the cell's axes",
           "State `direction: 100` in the description, or --direction 100.");
  }
}

/// What the tests are written into: the entry that stands in the folder already, so that nothing of it is lost, else
/// the catalogue's.
std::string base_text(const Catalogue& catalogue, const std::string& name, const std::optional<std::string>& folder) {
  if (folder && fs::exists(fs::path(*folder) / name)) {
    return Mapping::read_file(fs::path(*folder) / name).bytes();
  }
  return text_of(catalogue, name);
}

/// The entry with what was measured; `remarks` says what could not be carried on.
Entry measured_entry(const SeriesInput& input, const CouponResult& result, const Catalogue& catalogue,
                     const std::optional<std::string>& folder, std::vector<std::string>& remarks) {
  const TestSeries& series = input.series;
  const BaseMaterial& material = catalogue.material(series.material);
  const TestNote note{"coupons-" + file_name_part(input.name), material.process, tested_files(series.files)};
  if (!series.process.empty() && series.process != material.process) {
    remarks.push_back(
        fmt::format("the tests state the process \"{}\", the material \"{}\"; the law takes the material's, "
                    "for it would not be used otherwise",
                    series.process, material.process));
  }
  if (result.metal) {
    const std::string name = "base_materials/" + series.material + ".yaml";
    return {name, with_measured_properties(base_text(catalogue, name, folder),
                                           catalogue_properties(*result.metal, note, remarks), name)};
  }
  catalogue.cell(series.cell);
  const std::string name = "unit_cells/" + series.cell + ".yaml";
  return {name, with_measured_laws(base_text(catalogue, name, folder), catalogue_laws(*result.lattice, note, remarks),
                                   name)};
}

std::string write_entry(const std::string& folder, const Entry& entry) {
  const fs::path file = fs::path(folder) / entry.name;
  std::error_code failed;
  fs::create_directories(file.parent_path(), failed);
  if (failed) {
    refuse(fmt::format("--write {}: the folder cannot be made: {}", folder, failed.message()),
           "Name a folder that you may write to.");
  }
  replace_file(file, entry.text);
  return fmt::format("Written to {}. Use it: --catalogue {}\n", file.generic_string(), folder);
}

VerdictInShort in_short(const Estimate& estimate) {
  const Verdict& verdict = estimate.deciding.verdict;
  return {verdict.word, verdict_sentence(verdict) + " " + governing_sentence(verdict)};
}

/// A catalogue folder that lives as long as this.
class ScratchFolder {
public:
  ScratchFolder() : path_((fs::temp_directory_path() / "crushwright.XXXXXX").string()) {
    if (::mkdtemp(path_.data()) == nullptr) {
      refuse("no folder for a moment's use can be made in " + fs::temp_directory_path().string(),
             "Make room there, or set TMPDIR.");
    }
  }
  ~ScratchFolder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  const std::string& path() const { return path_; }

private:
  std::string path_;
};

/// Of a plateau law whose scatter is known from these tests; empty otherwise.
std::string coupon_sentence(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                            const CouponResult& result) {
  if (!result.lattice) {
    return {};
  }
  for (const MeasuredLaw& law : result.lattice->laws) {
    const std::size_t count = law.line ? law.line->count : result.lattice->specimens.size();
    if (law.property == "plateau stress" && law.refusal.empty() && count >= 2 && law.scatter <= 0.5) {
      return coupons_to_pass(crash_case, structures, law.scatter, count).sentence;
    }
  }
  return {};
}

VerdictChange verdict_change(const CommandOptions& options, const std::string& case_file, const Entry& entry,
                             const CouponResult& result) {
  CommandOptions case_options = options;
  case_options.case_file = case_file;
  const CommandInput before = read_input(case_options);
  const ScratchFolder scratch;
  write_entry(scratch.path(), entry);
  case_options.catalogue_folders.push_back(scratch.path());
  const CommandInput after = read_input(case_options);
  VerdictChange change;
  change.case_id = before.crash_case.id;
  change.title = before.crash_case.title;
  change.before = in_short(estimate(before.crash_case, before.catalogue));
  const Estimate with_tests = estimate(after.crash_case, after.catalogue);
  change.after = in_short(with_tests);
  change.coupons_to_pass = coupon_sentence(after.crash_case, with_tests.structures, result);
  return change;
}

std::string write_coupon_pack(const CommandOptions& options, const std::string& name, const CouponResult& result,
                              const std::string& document) {
  if (options.no_pack) {
    return "";
  }
  const std::string folder = options.pack_folder.value_or(file_name_part(name) + "_coupons");
  write_pack_folder(folder, {{"coupons.html", coupon_page(result, program_version())}, {"result.json", document}});
  return fmt::format("Page: {}\n", (fs::path(folder) / "coupons.html").generic_string());
}

} // namespace

ExitCode command_coupon(const CommandOptions& options, const CouponOptions& coupon_options) {
  const SeriesInput input = series_input(coupon_options);
  const Catalogue catalogue = catalogue_with(options.catalogue_folders);
  CouponResult result = result_of(input.series, catalogue);
  std::vector<std::string> remarks;
  std::optional<Entry> entry;
  if (coupon_options.write_folder || coupon_options.case_file) {
    require_writable(input.series);
    entry = measured_entry(input, result, catalogue, coupon_options.write_folder, remarks);
  }
  if (coupon_options.case_file) {
    result.change = verdict_change(options, *coupon_options.case_file, *entry, result);
  }
  auto files = catalogue.files_used();
  files.insert(files.end(), input.series.files.begin(), input.series.files.end());
  // The document is made first: a result with a value that is not finite leaves nothing behind.
  const std::string document = coupon_document(
      result, {program_version(), input_hash("coupon " + coupon_options.case_file.value_or(""), files)});
  std::string text = coupon_text(result);
  for (const std::string& remark : remarks) {
    text += fmt::format("Not carried on: {}.\n", remark);
  }
  if (coupon_options.write_folder) {
    text += write_entry(*coupon_options.write_folder, *entry);
  }
  text += write_coupon_pack(options, input.name, result, document);
  print_result(options, document, text);
  return ExitCode::pass;
}

} // namespace crushwright
