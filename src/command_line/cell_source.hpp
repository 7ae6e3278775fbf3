#pragma once
#include "crushwright/catalogue.hpp"
#include "unit_cell/density_fit.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// A cell as the user named it, read and ready to be computed with.
struct CellSource {
  std::filesystem::path file;
  std::string text;              ///< the file as it is
  std::string completed;         ///< the same with the densities that it lacked
  UnitCell cell;                 ///< read from `completed`
  std::optional<DensityFit> fit; ///< true density of the cell's own solid; there when it was computed
  bool lacked_density = false;   ///< the file has no true density, so that `estimate` cannot use it yet
  bool may_be_written = false;   ///< the user's own file, not one that comes with the program
};

/// Reads a catalogue id, or a path to a cell's YAML file. A path ends in .yaml or holds a slash.
///
/// A file without true_density has it computed from the cell's own solid; of a cell of struts the nominal density
/// too.
/// @param users_folders  searched for an id before the built-in catalogue, the last one first
/// @param renew_density  compute the true density also where the file states one
/// @throws InputError for an id or path that is not there, or an entry that cannot be used.
CellSource read_cell_source(const std::string& name, const std::vector<std::string>& users_folders,
                            bool renew_density);

} // namespace crushwright
