#include "command_line/command_input.hpp"

#include "command_line/catalogue_folders.hpp"
#include "command_line/program_version.hpp"
#include "crash_case/catalogue_references.hpp"
#include "crushwright/errors.hpp"
#include "review_pack/review_pack.hpp"

#include <cstdio>
#include <filesystem>
#include <set>
#include <spdlog/spdlog.h>

#include <fmt/format.h>

namespace crushwright {

CommandInput read_input(const CommandOptions& options) {
  CommandInput input{catalogue_with(options.catalogue_folders), read_case(options.case_file)};
  check_catalogue_references(input.crash_case, input.catalogue);
  spdlog::debug("case {}: {} structures, {} impacts, {} limits", input.crash_case.id,
                input.crash_case.structures.size(), input.crash_case.impacts.size(), input.crash_case.limits.size());
  return input;
}

Provenance provenance_of(const CommandInput& input) {
  const auto files = input.catalogue.files_used();
  for (const auto& [name, bytes] : files) {
    spdlog::debug("catalogue file {}, {} bytes", name, bytes.size());
  }
  return {program_version(), input_hash(input.crash_case, files)};
}

std::vector<BaseMaterial> materials_of(const CommandInput& input) {
  std::set<std::string> ids;
  for (const StructureInput& structure : input.crash_case.structures) {
    if (structure.lattice) {
      ids.insert(structure.lattice->material);
    }
    if (structure.skin) {
      ids.insert(structure.skin->material);
    }
    if (structure.end_plates) {
      ids.insert(structure.end_plates->material);
    }
  }
  std::vector<BaseMaterial> materials;
  for (const std::string& id : ids) {
    materials.push_back(input.catalogue.material(id));
  }
  return materials;
}

namespace {

/// Entries of the cells in use, for their drawings.
std::vector<UnitCell> cells_of(const CommandInput& input) {
  std::set<std::string> ids;
  for (const StructureInput& structure : input.crash_case.structures) {
    if (structure.lattice) {
      ids.insert(structure.lattice->cell);
    }
  }
  std::vector<UnitCell> cells;
  for (const std::string& id : ids) {
    cells.push_back(input.catalogue.cell(id));
  }
  return cells;
}

} // namespace

std::string pack_folder_of(const CommandOptions& options, const CommandInput& input) {
  return options.pack_folder.value_or(input.crash_case.id + "_pack");
}

std::string write_pack(const CommandOptions& options, const CommandInput& input, const Estimate& estimate,
                       const Alternatives& alternatives, const std::vector<FilledStructure>& filled) {
  if (options.no_pack) {
    return "";
  }
  const std::string folder = pack_folder_of(options, input);
  write_review_pack(folder, input.crash_case, estimate, provenance_of(input), materials_of(input), alternatives,
                    cells_of(input), filled);
  spdlog::debug("review pack written to {}", folder);
  return fmt::format("Review pack: {}\n", (std::filesystem::path(folder) / "review.html").generic_string());
}

std::vector<FilledStructure> filled_structures(const CommandInput& input) {
  std::vector<FilledStructure> filled;
  for (const StructureInput& structure : input.crash_case.structures) {
    if (structure.mirror_of.empty() && structure.lattice && !structure.trigger &&
        is_sized(input.catalogue.cell(structure.lattice->cell))) {
      filled.push_back(filled_structure(input.crash_case, input.catalogue, structure.id));
    }
  }
  return filled;
}

void print_result(const CommandOptions& options, const std::string& document, const std::string& text) {
  const std::string& result = options.json ? document : text;
  const bool written = std::fwrite(result.data(), 1, result.size(), stdout) == result.size();
  if (!written || std::fflush(stdout) != 0) {
    throw InputError(
        "the result could not be written to the standard output\n   Is the disk full, or the output closed?");
  }
}

} // namespace crushwright
