#pragma once
#include <filesystem>
#include <string>
#include <vector>

namespace crushwright {

/// One file of a pack, not yet on disk.
struct PackFile {
  std::string name; ///< relative to the pack, '/' between folders: "curves/history-wall.csv"
  std::string bytes;
};

/// Writes a review pack's files as one folder, all or nothing: into a hidden folder beside it, then by renaming.
///
/// A pack that is already there is replaced whole. Missing parent folders are made.
/// @throws InputError when the target is a file, or a folder that holds anything but a pack of this program, or when
///         the place cannot be written; what was there before is then as it was.
void write_pack_folder(const std::filesystem::path& folder, const std::vector<PackFile>& files);

/// Writes the channel folders of a case's impacts into one folder, all or nothing, as write_pack_folder() does; one
/// that holds earlier histories of this program and nothing else is replaced whole.
/// @throws InputError as require_histories_folder(), or when the place cannot be written; what was there before is
///         then as it was.
void write_histories_folder(const std::filesystem::path& folder, const std::vector<PackFile>& files);

/// Whether write_histories_folder() could write there, without writing anything.
/// @throws InputError when the target is a file, a folder that holds anything but histories of this program, or lies
///         where no folder can be made.
void require_histories_folder(const std::filesystem::path& folder);

/// Part of a file name that stands for an id: letters, digits, '-', '_' and '.' stay, everything else becomes '_'.
std::string file_name_part(const std::string& id);

} // namespace crushwright
