#pragma once
#include "review_pack/page.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace crushwright {

/// The review page: one self-contained HTML document that reads nothing from the network.
///
/// @param materials  base materials that the structures use, for their table.
/// @param cells      catalogue entries of the cells that the structures use, for their drawings; one that is missing
///                   is not drawn.
/// @param filled     structures with their lattice in place, for the pictures; may be empty.
/// @throws NotFinite when a number to be drawn is NaN or infinite.
std::string review_page(const CrashCase& crash_case, const Estimate& estimate, const Provenance& provenance,
                        const std::vector<BaseMaterial>& materials, const Alternatives& alternatives = {},
                        const std::vector<UnitCell>& cells = {}, const std::vector<FilledStructure>& filled = {});

/// Writes the pack: review.html, result.json and curves/*.csv, all or nothing; a pack already there is replaced
/// whole.
/// @throws InputError when the folder cannot be written or is not a pack; NotFinite before anything is written.
void write_review_pack(const std::filesystem::path& folder, const CrashCase& crash_case, const Estimate& estimate,
                       const Provenance& provenance, const std::vector<BaseMaterial>& materials,
                       const Alternatives& alternatives = {}, const std::vector<UnitCell>& cells = {},
                       const std::vector<FilledStructure>& filled = {});

} // namespace crushwright
