#pragma once
#include "crushwright/unit_cell.hpp"

#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace crushwright {

/// The catalogue of unit cells and base materials: one or more folders, each with unit_cells/ and base_materials/.
///
/// Files are read when first asked for and kept; a file of a later folder replaces the one of the same name before
/// it. A user adds a cell or a material by dropping a YAML file, docs/catalogue_format.md. Safe to use from several
/// threads; the references stay valid as long as the catalogue lives.
class Catalogue {
public:
  /// @throws InputError when a folder is not there or has neither unit_cells/ nor base_materials/.
  explicit Catalogue(const std::vector<std::filesystem::path>& folders);

  std::vector<std::string> cell_ids() const;     ///< sorted
  std::vector<std::string> material_ids() const; ///< sorted

  /// @throws InputError for an unknown id (nearest spelling, known ids) or a file that cannot be used.
  const UnitCell& cell(const std::string& id) const;
  const BaseMaterial& material(const std::string& id) const;

  /// The same catalogue without its laws of this evidence, for showing what they change. Files are read again.
  Catalogue without(Evidence evidence) const;

  /// Every file read so far: name inside the catalogue ("unit_cells/bcc.yaml") and bytes, sorted by name. The input
  /// hash covers them.
  std::vector<std::pair<std::string, std::string>> files_used() const;

private:
  Catalogue() = default;
  using FileMap = std::map<std::string, std::filesystem::path>;
  FileMap cell_files_;
  FileMap material_files_;
  // What has been read so far; a lookup fills it, so a lock guards it.
  std::unique_ptr<std::mutex> reading_;
  std::optional<Evidence> left_out_;
  mutable std::map<std::string, UnitCell> cells_;
  mutable std::map<std::string, BaseMaterial> materials_;
  mutable std::map<std::string, std::string> bytes_;
};

} // namespace crushwright
