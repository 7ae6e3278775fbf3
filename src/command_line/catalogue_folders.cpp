#include "command_line/catalogue_folders.hpp"

#include "crushwright/errors.hpp"

#include <spdlog/spdlog.h>
#include <system_error>

#include <fmt/format.h>

namespace crushwright {

namespace fs = std::filesystem;

fs::path built_in_catalogue() {
  std::error_code unknown;
  const fs::path program = fs::read_symlink("/proc/self/exe", unknown);
  const fs::path installed = unknown ? fs::path() : program.parent_path() / CRUSHWRIGHT_INSTALLED_LATTICES;
  const fs::path source = CRUSHWRIGHT_SOURCE_LATTICES;
  for (const fs::path& folder : {installed, source}) {
    if (!folder.empty() && fs::is_directory(folder / "unit_cells")) {
      return folder.lexically_normal();
    }
  }
  throw InputError(fmt::format("{}: the catalogue that comes with the program is not there\n"
                               "   Install the program again as a whole: it needs its lattices/ folder.",
                               installed.lexically_normal().string()));
}

Catalogue catalogue_with(const std::vector<std::string>& users_folders) {
  std::vector<fs::path> folders{built_in_catalogue()};
  for (const std::string& folder : users_folders) {
    if (!fs::is_directory(folder)) {
      throw InputError(fmt::format("{}: there is no such catalogue folder\n"
                                   "   Name a folder that holds unit_cells/ or base_materials/.",
                                   folder));
    }
    folders.emplace_back(folder);
  }
  for (const fs::path& folder : folders) {
    spdlog::debug("catalogue folder {}", folder.string());
  }
  return Catalogue(folders);
}

} // namespace crushwright
