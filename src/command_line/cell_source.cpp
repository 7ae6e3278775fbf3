#include "command_line/cell_source.hpp"

#include "command_line/catalogue_folders.hpp"
#include "crushwright/errors.hpp"
#include "quantities/nearest_spelling.hpp"
#include "unit_cell/density_block.hpp"
#include "unit_cell/strut_identity.hpp"
#include "unit_cell/unit_cell_reader.hpp"

#include <algorithm>
#include <numbers>
#include <spdlog/spdlog.h>

#include <fmt/format.h>

namespace crushwright {

namespace fs = std::filesystem;

namespace {

bool is_path(const std::string& name) {
  return fs::path(name).extension() == ".yaml" || name.find('/') != std::string::npos;
}

struct Found {
  fs::path file;
  bool own;
};

[[noreturn]] void refuse_id(const std::string& name, const std::vector<std::string>& users_folders) {
  const std::vector<std::string> known = catalogue_with(users_folders).cell_ids();
  const auto meant = nearest_spelling(name, known);
  throw InputError(
      fmt::format("{}: the catalogue has no such cell\n   {}Known: {}.\n   Name one of these, or the path "
                  "of a cell's YAML file (docs/catalogue_format.md).",
                  name, meant ? fmt::format("Did you mean `{}`? ", *meant) : "", comma_list(known)));
}

Found find_cell(const std::string& name, const std::vector<std::string>& users_folders) {
  if (is_path(name)) {
    return {name, true};
  }
  for (auto folder = users_folders.rbegin(); folder != users_folders.rend(); ++folder) {
    const fs::path file = fs::path(*folder) / "unit_cells" / (name + ".yaml");
    if (fs::is_regular_file(file)) {
      return {file, true};
    }
  }
  const fs::path file = built_in_catalogue() / "unit_cells" / (name + ".yaml");
  if (!fs::is_regular_file(file)) {
    refuse_id(name, users_folders);
  }
  return {file, false};
}

/// Whether a line opens this key at the left margin.
bool has_key(const std::string& text, const std::string& key) {
  return text.rfind(key + ":", 0) == 0 || text.find("\n" + key + ":") != std::string::npos;
}

/// A density that holds the place of one that is not yet computed, so that the rest of the entry can be read.
DensityFit stand_in() {
  DensityFit fit;
  fit.coefficients = {1.0};
  fit.size_ratio_range = {0.02, 0.03};
  fit.method = "none yet";
  return fit;
}

std::string with_line_feed(const std::string& text) {
  return text.empty() || text.back() == '\n' ? text : text + '\n';
}

std::string nominal_block(double strut_length) {
  return fmt::format("nominal_density:\n"
                     "  coefficients: [0, {:.10g}]\n"
                     "  source: \"sum of strut volumes, pi/4 x total strut length, each strut counted once\"\n"
                     "  standing: derived\n",
                     std::numbers::pi / 4 * strut_length);
}

UnitCell read_text(const std::string& text, const std::string& shown_name) {
  return read_unit_cell(Mapping::read_text(text, shown_name));
}

/// Strut cells: the nominal density is arithmetic on the struts.
std::string with_nominal_density(const std::string& text, const std::string& shown_name) {
  if (has_key(text, "nominal_density") || !has_key(text, "struts")) {
    return text;
  }
  std::string trial = with_line_feed(text) + nominal_block(1);
  if (!has_true_density(trial)) {
    trial = with_true_density(trial, true_density_block(stand_in()), shown_name);
  }
  double length = 0;
  for (const Strut& strut : read_text(trial, shown_name).struts) {
    length += strut_length(strut);
  }
  return with_line_feed(text) + nominal_block(length);
}

/// The word behind `class:`; empty when it is not there, which the reader then says.
std::string class_of(const std::string& text) {
  const std::size_t at = text.find("\nclass:");
  if (at == std::string::npos) {
    return "";
  }
  const std::size_t from = text.find_first_not_of(" \t\"'", at + 7);
  return text.substr(from, text.find_first_of(" \t\"'\r\n#", from) - from);
}

/// A foam has no true density to compute, and a surface of one size states its own.
bool has_fitted_density(const std::string& text) {
  const std::string word = class_of(text);
  return word != "foam" && word != "solid";
}

std::string with_block(const std::string& text, const DensityFit& fit, const std::string& name) {
  const bool has_place = has_true_density(text) || has_key(text, "nominal_density");
  return has_place ? with_true_density(text, true_density_block(fit), name)
                   : with_line_feed(text) + true_density_block(fit);
}

void complete(CellSource& source, bool renew_density) {
  const std::string name = source.file.string();
  source.completed = with_nominal_density(source.text, name);
  source.lacked_density = source.completed != source.text;
  if (has_fitted_density(source.completed)) {
    const bool missing = !has_true_density(source.completed);
    source.lacked_density = source.lacked_density || missing;
    if (missing || renew_density) {
      source.fit = density_of_cell(
          read_text(missing ? with_block(source.completed, stand_in(), name) : source.completed, name));
      source.completed = with_block(source.completed, *source.fit, name);
    }
  }
  source.cell = read_text(source.completed, name);
}

void require_own_name(const CellSource& source) {
  if (source.cell.id != source.file.stem().string()) {
    throw InputError(fmt::format("{}: the file is called {}.yaml, but its id is '{}'\n   Make the id and the file's "
                                 "name the same: the catalogue finds cells by both.",
                                 source.file.string(), source.file.stem().string(), source.cell.id));
  }
}

} // namespace

CellSource read_cell_source(const std::string& name, const std::vector<std::string>& users_folders,
                            bool renew_density) {
  const Found found = find_cell(name, users_folders);
  CellSource source;
  source.file = found.file;
  source.may_be_written = found.own;
  source.text = Mapping::read_file(found.file).bytes();
  spdlog::debug("cell file {}, {} bytes", found.file.string(), source.text.size());
  try {
    complete(source, renew_density);
  } catch (const OutOfDomain& fault) {
    throw InputError(fmt::format("{}: {}", source.file.string(), fault.what()));
  }
  require_own_name(source);
  return source;
}

} // namespace crushwright
