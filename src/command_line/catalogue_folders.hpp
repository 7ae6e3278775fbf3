#pragma once
#include "crushwright/catalogue.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace crushwright {

/// The catalogue that comes with the program: share/crushwright/lattices beside an installed program, else the
/// source folder that it was built from. The installed one goes first, so that an installed program does not change
/// its answers because somebody edits the source folder.
/// @throws InputError when neither is there.
std::filesystem::path built_in_catalogue();

/// The built-in catalogue with the user's folders behind it; a file of a later folder replaces one of the same name.
/// @throws InputError when a folder cannot be used.
Catalogue catalogue_with(const std::vector<std::string>& users_folders);

} // namespace crushwright
