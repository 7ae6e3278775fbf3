#include "crash_case/catalogue_references.hpp"

#include "quantities/nearest_spelling.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <optional>

namespace crushwright {
namespace {

/// One kind of thing that the catalogue holds.
struct Shelf {
  const CrashCase& crash_case;
  std::string kind;
  std::string folder;
  std::vector<std::string> ids;

  void check(const std::string& id, const std::string& path) const {
    if (std::find(ids.begin(), ids.end(), id) != ids.end())
      return;
    const std::optional<std::string> nearest = nearest_spelling(id, ids);
    fail_in_case(crash_case, path, fmt::format("the catalogue has no {} `{}`", kind, id),
                 fmt::format("{}Known: {}.\nUse one of these, or add {}/{}.yaml to a catalogue folder of your own "
                             "(docs/catalogue_format.md).",
                             nearest ? fmt::format("Did you mean `{}`? ", *nearest) : "", comma_list(ids), folder,
                             id));
  }
};

void check_structure(const StructureInput& structure, const Shelf& cells, const Shelf& materials) {
  const std::string path = "structures." + structure.id;
  if (structure.lattice) {
    cells.check(structure.lattice->cell, path + ".lattice.cell");
    materials.check(structure.lattice->material, path + ".lattice.material");
  }
  if (structure.skin)
    materials.check(structure.skin->material, path + ".skin.material");
  if (structure.end_plates)
    materials.check(structure.end_plates->material, path + ".end_plates.material");
}

} // namespace

void check_catalogue_references(const CrashCase& crash_case, const Catalogue& catalogue) {
  const Shelf cells{crash_case, "unit cell", "unit_cells", catalogue.cell_ids()};
  const Shelf materials{crash_case, "base material", "base_materials", catalogue.material_ids()};
  for (const StructureInput& structure : crash_case.structures)
    if (structure.mirror_of.empty())
      check_structure(structure, cells, materials);
  if (!crash_case.comparison)
    return;
  const CompareInput& comparison = *crash_case.comparison;
  for (std::size_t i = 0; i < comparison.cells.size(); ++i)
    cells.check(comparison.cells[i], fmt::format("compare.cells[{}]", i));
  for (std::size_t i = 0; i < comparison.materials.size(); ++i)
    materials.check(comparison.materials[i], fmt::format("compare.materials[{}]", i));
}

} // namespace crushwright
