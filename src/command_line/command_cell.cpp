#include "command_line/command_cell.hpp"

#include "command_line/catalogue_folders.hpp"
#include "command_line/cell_computation.hpp"
#include "command_line/cell_mesh_file.hpp"
#include "command_line/cell_source.hpp"
#include "command_line/cell_text.hpp"
#include "command_line/option_value.hpp"
#include "command_line/program_version.hpp"
#include "crushwright/errors.hpp"
#include "quantities/units.hpp"
#include "result_file/catalogue_entry.hpp"
#include "result_file/cell_document.hpp"
#include "result_file/file_set.hpp"
#include "review_pack/cell_drawing.hpp"
#include "review_pack/cell_page.hpp"

#include <algorithm>
#include <spdlog/spdlog.h>

#include <fmt/format.h>

namespace crushwright {

namespace {

[[noreturn]] void refuse(const std::string& what, const std::string& what_to_do) {
  refuse_option("cell", what, what_to_do);
}

double option_value(const char* option, const std::string& text, Dimension dimension) {
  return option_value("cell", option, text, dimension);
}

double density_value(const char* option, const std::string& text) {
  const double density = option_value(option, text, Dimension::fraction);
  if (!(density > 0 && density < 1)) {
    refuse(fmt::format("{} {}: a relative density lies between 0 and 1", option, text),
           "Write for instance 0.15, or \"15 %\".");
  }
  return density;
}

CellQuestion question_of(const CellOptions& options) {
  CellQuestion question;
  question.direction = options.direction;
  question.solid = options.solid;
  question.grid = options.grid.value_or(question.grid);
  question.law_grid = options.grid.value_or(question.law_grid);
  question.version = program_version();
  if (options.relative_density) {
    question.relative_density = density_value("--relative-density", *options.relative_density);
  }
  if (options.cell_edge) {
    question.cell_edge = option_value("--cell-edge", *options.cell_edge, Dimension::length);
    if (!(question.cell_edge > 0)) {
      refuse(fmt::format("--cell-edge {}: an edge is longer than 0", *options.cell_edge),
             "Write for instance \"10 mm\".");
    }
  }
  if (!options.laws.empty()) {
    question.law_range =
        Range{density_value("--laws", options.laws.at(0)), density_value("--laws", options.laws.at(1))};
  }
  return question;
}

bool draws_alone(const CellOptions& options) {
  return (options.drawing || options.mesh) && options.relative_density && !options.material && !options.write;
}

/// Only writing needs neither, because the density and the laws of a cell belong to every metal; a drawing needs no
/// metal.
void require_options(const CellOptions& options) {
  const bool one_missing = !options.relative_density || !options.material;
  const bool both_missing = !options.relative_density && !options.material;
  if (one_missing && !(both_missing && options.write) && !draws_alone(options)) {
    refuse(
        !options.relative_density ? "no --relative-density is given" : "no --material is given",
        "Write for instance: crushwright cell octet --relative-density 0.15 --material AlSi10Mg-T6.\n   With --write "
        "both may be left out; the file then gets its densities, and its laws where --laws is given.");
  }
}

void require_writable(const CellSource& source) {
  if (!source.may_be_written) {
    refuse(fmt::format("--write: {} comes with the program and is not changed", source.cell.id),
           fmt::format("Copy {} to a file or a catalogue folder of your own, and name that.", source.file.string()));
  }
}

LawLists lists_of(const std::vector<FittedLaw>& fitted) {
  LawLists lists;
  for (const FittedLaw& law : fitted) {
    (law.property == "elastic modulus"  ? lists.elastic_modulus
     : law.property == "plateau stress" ? lists.plateau_stress
                                        : lists.first_peak_ratio)
        .push_back(law.law);
  }
  return lists;
}

std::string density_table(const CellSource& source) {
  std::string text;
  if (!source.fit) {
    return text;
  }
  text += fmt::format("\nTrue density of the cell's own solid, fitted to {} sizes; largest miss {:.2f} %\n",
                      source.fit->samples.size(), 100 * source.fit->largest_error);
  text += fmt::format("  {:>10}  {:>8}  {:>8}  {:>10}\n", "size/edge", "solid", "fit", "grid step");
  const std::size_t step = std::max<std::size_t>(1, source.fit->samples.size() / 6);
  for (std::size_t i = 0; i < source.fit->samples.size(); i += step) {
    const DensitySample& sample = source.fit->samples[i];
    text += fmt::format("  {:10.4f}  {:8.5f}  {:8.5f}  {:8.3f} %\n", sample.size_ratio, sample.density,
                        source.fit->constant + evaluate_density(source.fit->coefficients, sample.size_ratio),
                        100 * sample.spread);
  }
  return text;
}

std::string write_entry(const CellSource& source, const std::vector<FittedLaw>& fitted) {
  std::string text = source.completed;
  if (!fitted.empty()) {
    text = with_computed_laws(text, lists_of(fitted), source.file.string());
  }
  if (text == source.text) {
    return fmt::format("{} holds all this already.\n", source.file.string());
  }
  replace_file(source.file, text);
  return fmt::format("Written to {}: the true density{}.\n", source.file.string(),
                     fitted.empty() ? "" : fmt::format(" and {} computed laws", fitted.size()));
}

/// @param crush_direction  shown by arrows; empty for none
std::string write_drawing(const CellOptions& options, const CellSource& source, double size_ratio,
                          const std::string& crush_direction) {
  if (!options.drawing) {
    return "";
  }
  if (!has_drawing(source.cell)) {
    refuse(fmt::format("--drawing: {} has no shape to be drawn", source.cell.name), "Leave that option out.");
  }
  CellDrawingOptions drawing;
  drawing.crush_direction = crush_direction;
  replace_file(*options.drawing, cell_drawing_svg(source.cell, size_ratio, drawing));
  return fmt::format("Drawing: {}\n", *options.drawing);
}

void require_mesh_options(const CellOptions& options) {
  if (options.spacing && !options.mesh) {
    refuse("--spacing belongs to --mesh, which is not given", "Add --mesh, or leave that option out.");
  }
  if (!options.mesh) {
    return;
  }
  require_mesh_ending(*options.mesh);
  if (!options.cell_edge) {
    refuse("--mesh: the file is in mm, and no --cell-edge is given", "Add it, for instance --cell-edge \"10 mm\".");
  }
}

/// All or nothing: the mesh is whole before its file is touched.
std::string write_mesh(const CellOptions& options, const CellSource& source, const CellQuestion& question) {
  if (!options.mesh) {
    return "";
  }
  CellMeshQuestion mesh{*options.mesh, question.cell_edge, std::nullopt};
  if (options.spacing) {
    mesh.spacing = option_value("--spacing", *options.spacing, Dimension::length);
  }
  const CellMeshFile file = cell_mesh_file(source.cell, question.relative_density, mesh);
  replace_file(*options.mesh, file.bytes);
  return file.text;
}

std::string write_cell_pack(const CommandOptions& options, const CellReport& report, const std::string& document) {
  if (options.no_pack) {
    return "";
  }
  const std::string folder = options.pack_folder.value_or(file_name_part(report.cell.id) + "_pack");
  write_pack_folder(folder, {{"cell.html", cell_page(report, program_version())}, {"result.json", document}});
  return fmt::format("Page: {}\n", (std::filesystem::path(folder) / "cell.html").generic_string());
}

/// Every choice that changes the answer, in words.
std::string words_of(const CellQuestion& question, const std::string& material) {
  return fmt::format("cell {} {} {} {} {} {} {} {}", question.relative_density, material, question.direction,
                     question.cell_edge, question.solid, question.grid,
                     question.law_range ? question.law_range->low : 0,
                     question.law_range ? question.law_range->high : 0);
}

ExitCode write_alone(const CommandOptions& options, const CellOptions& cell_options, const CellSource& source,
                     const CellQuestion& question) {
  if (options.json || options.pack_folder || cell_options.drawing || cell_options.mesh || cell_options.solid) {
    refuse("--json, --pack, --drawing, --mesh and --solid show a cell at one density in one metal",
           "Give --relative-density and --material too, or leave that option out.");
  }
  std::vector<std::string> notes; // shown by the report of a cell in one metal; a writing run prints what it wrote
  const std::vector<FittedLaw> fitted = fitted_laws(source.cell, question, notes);
  print_result(options, "",
               fmt::format("{}\n{}\n", source.cell.name, density_table(source)) + write_entry(source, fitted));
  return ExitCode::pass;
}

ExitCode draw_alone(const CommandOptions& options, const CellOptions& cell_options, const CellSource& source,
                    const CellQuestion& question) {
  if (options.json || options.pack_folder || cell_options.solid || question.law_range) {
    refuse(
        "--json, --pack, --solid and --laws compute a cell, and without a metal --drawing and --mesh only show its "
        "shape",
        "Give --material too, or leave that option out.");
  }
  const double ratio =
      has_drawing(source.cell) ? size_ratio(source.cell, question.relative_density) : question.relative_density;
  const std::string mesh = write_mesh(cell_options, source, question); // first: it may be refused
  print_result(options, "", write_drawing(cell_options, source, ratio, "") + mesh);
  return ExitCode::pass;
}

ExitCode report_cell(const CommandOptions& options, const CellOptions& cell_options, const CellSource& source,
                     const CellQuestion& question) {
  const Catalogue catalogue = catalogue_with(options.catalogue_folders);
  const BaseMaterial& material = catalogue.material(*cell_options.material);
  const CellReport report = computed_report(source.cell, material, question);
  auto files = catalogue.files_used();
  files.emplace_back(fmt::format("unit_cells/{}.yaml", source.cell.id), source.text);
  const Provenance provenance{program_version(), input_hash(words_of(question, material.id), files)};
  // The document is made first: a result with a value that is not finite leaves nothing behind.
  const std::string document = cell_document(report, provenance);
  std::string text = cell_text(report);
  if (source.fit) {
    text += density_table(source);
  }
  text += '\n';
  if (cell_options.write) {
    text += write_entry(source, report.fitted_laws);
  } else if (source.lacked_density) {
    text += fmt::format("{} lacks its density, computed here; `estimate` needs it in the file: add --write.\n",
                        source.file.string());
  }
  text += write_drawing(cell_options, source, report.size_ratio, report.direction);
  text += write_mesh(cell_options, source, question);
  text += write_cell_pack(options, report, document);
  print_result(options, document, text);
  return ExitCode::pass;
}

} // namespace

ExitCode command_cell(const CommandOptions& options, const CellOptions& cell_options) {
  require_options(cell_options);
  require_mesh_options(cell_options);
  const CellQuestion question = question_of(cell_options);
  const CellSource source = read_cell_source(cell_options.cell, options.catalogue_folders, cell_options.write);
  if (cell_options.write) {
    require_writable(source);
  }
  try {
    return cell_options.material       ? report_cell(options, cell_options, source, question)
           : draws_alone(cell_options) ? draw_alone(options, cell_options, source, question)
                                       : write_alone(options, cell_options, source, question);
  } catch (const OutOfDomain& fault) {
    refuse(fault.what(), source.may_be_written ? fmt::format("Change the options, or {}.", source.file.string())
                                               : "Change the options.");
  }
}

} // namespace crushwright
