#pragma once
#include "crushwright/crash_case.hpp"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace crushwright {

/// What a result was made by and from. No time, path, host or thread count: equal inputs give equal bytes.
struct Provenance {
  std::string program_version;
  std::string input_hash; ///< of input_hash()
};

/// SHA-256 of some bytes, 64 lower-case hexadecimal digits (FIPS 180-4).
std::string sha256(std::string_view bytes);

/// SHA-256 over the case file's bytes, the surfaces that it names and every catalogue file used, each with its name
/// and length before it, so that bytes that move from one file to another change the hash. The case's own name and
/// place are left out.
///
/// @param catalogue_files  name relative to its folder, and bytes; in any order (Catalogue::files_used()).
std::string input_hash(const CrashCase& crash_case, std::vector<std::pair<std::string, std::string>> catalogue_files);

/// The same where there is no case: over the files, and the question put to them in words.
std::string input_hash(const std::string& question, std::vector<std::pair<std::string, std::string>> catalogue_files);

} // namespace crushwright
