#pragma once
#include "crushwright/catalogue.hpp"
#include "crushwright/crash_case.hpp"
#include "crushwright/estimate.hpp"
#include "result_file/provenance.hpp"
#include "review_pack/page.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// What the user wrote behind a command.
struct CommandOptions {
  std::string case_file;
  std::vector<std::string> catalogue_folders; ///< added to the built-in one, in this order
  std::optional<std::string> pack_folder;     ///< absent: "<case id>_pack" in the current folder
  bool no_pack = false;
  std::optional<std::string> histories_folder; ///< absent: no folder of channels
  bool json = false;
  bool verbose = false;
};

/// A case with the catalogue it is read against.
struct CommandInput {
  Catalogue catalogue;
  CrashCase crash_case;
};

/// @throws InputError for a faulty case file, catalogue, or a reference of one to the other.
CommandInput read_input(const CommandOptions& options);

/// By which program and from which bytes a result was made; call it after the catalogue was used.
Provenance provenance_of(const CommandInput& input);

/// Base materials that a case's structures use, sorted by id, each once.
std::vector<BaseMaterial> materials_of(const CommandInput& input);

/// Where the review pack of a case goes.
std::string pack_folder_of(const CommandOptions& options, const CommandInput& input);

/// Writes the review pack unless the user wants none.
/// @return  the line that says where it is, empty without a pack.  @throws InputError when it cannot be written.
std::string write_pack(const CommandOptions& options, const CommandInput& input, const Estimate& estimate,
                       const Alternatives& alternatives = {}, const std::vector<FilledStructure>& filled = {});

/// The structures of a case that are no mirrors and have a lattice whose cells can be placed, filled; a trigger's
/// rows are not drawn, so structures with one are left out.
std::vector<FilledStructure> filled_structures(const CommandInput& input);

/// Puts a result on stdout: the document with --json, else the text.
void print_result(const CommandOptions& options, const std::string& document, const std::string& text);

} // namespace crushwright
