#pragma once
#include "crushwright/unit_cell.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace crushwright {

/// Computed laws of one cell by the catalogue's lists.
struct LawLists {
  std::vector<PowerLaw> elastic_modulus;
  std::vector<PowerLaw> plateau_stress;
  std::vector<PowerLaw> first_peak_ratio;
};

/// An entry's text with its computed laws replaced by these: a law of evidence `computed` goes, the new ones stand at
/// the end of their lists, every other byte is as it was. A list left without a law goes with its key; a list that is
/// not there is put before `densification`, or at the end.
///
/// @param entry       text of a unit_cells/<id>.yaml that can be read (with its true density)
/// @param shown_name  stands for the file in messages
/// @throws InputError when the entry cannot be read, or a list is written in one line, so that laws cannot be put
///         into it line by line.
std::string with_computed_laws(const std::string& entry, const LawLists& laws, const std::string& shown_name);

/// One computed law as a list item of a catalogue entry; ends with a line feed.
/// @param indent  blanks before the dash
std::string law_item(const PowerLaw& law, bool has_stress_basis, std::size_t indent);

/// Replaces a file by a text, all or nothing: written beside it, then renamed.
/// @throws InputError when the place cannot be written; the file is then as it was.
void replace_file(const std::filesystem::path& file, const std::string& bytes);

} // namespace crushwright
