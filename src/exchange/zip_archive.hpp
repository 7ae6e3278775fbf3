#pragma once
#include <string>
#include <vector>

namespace crushwright {

struct ZipPart {
  std::string name; ///< inside the archive, '/' between folders
  std::string bytes;
};

/// A zip archive with deflated parts in the given order, dated 1 January 1980, so that the same parts give the same
/// bytes.
/// @throws std::runtime_error when memory runs out or the library fails; nothing is written to disk.
std::string zip_archive(const std::vector<ZipPart>& parts);

} // namespace crushwright
