#pragma once
#include "result_file/channel_folder.hpp"

#include <filesystem>

namespace crushwright {

/// Reads the folder of one impact as channel_files() writes it: the samples are the same bit for bit.
/// @throws InputError  with file and line, for a file that is missing, a header that is missing or no number, an
///         index that does not agree with the channels, or a wrong number of samples.
ChannelFolder read_channel_folder(const std::filesystem::path& folder);

} // namespace crushwright
