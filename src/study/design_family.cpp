#include "study/design_family.hpp"

#include "quantities/units.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr double thinnest_skin = 0.4e-3, thickest_skin = 10e-3;
constexpr double lightest_foam = 0.03, densest_foam = 0.40;
/// Room kept to the ends of a catalogue entry's range, so that rounding never leaves it.
constexpr double inside = 1e-6;
/// Sizes are given in whole micrometres, a foam's density in whole tenths of a per cent.
constexpr double size_step = 1e-6, density_step = 1e-3;

std::string direction_of(const UnitCell& cell, const std::string& asked) {
  const auto has = [&](const std::string& direction) {
    return std::any_of(cell.plateau_stress.begin(), cell.plateau_stress.end(), [&](const PowerLaw& law) {
      return law.origin.direction == direction || law.origin.direction == "any";
    });
  };
  if (cell.plateau_stress.empty() || has(asked))
    return asked;
  return cell.plateau_stress.front().origin.direction;
}

std::string size_key_of(const UnitCell& cell) {
  if (!is_sized(cell))
    return "relative_density";
  return cell.cell_class == CellClass::strut || cell.cell_class == CellClass::skeletal ? "strut" : "wall";
}

/// What weighing and measuring said belongs to the part that was built, not to a design that differs from it.
void forget_as_built(CrashCase& crash_case) {
  for (StructureInput& structure : crash_case.structures)
    structure.as_built.reset();
}

void set_lattice(CrashCase& crash_case, const UnitCell& cell, const std::string& material, double cell_edge,
                 double tip, double root) {
  forget_as_built(crash_case);
  for (StructureInput& structure : crash_case.structures) {
    LatticeInput lattice = structure.lattice.value_or(LatticeInput{});
    lattice.cell = cell.id;
    lattice.material = material;
    lattice.crush_direction = direction_of(cell, lattice.crush_direction);
    lattice.cell_edge.value = cell_edge;
    lattice.size_key = size_key_of(cell);
    lattice.size_tip.value = tip;
    lattice.size_root.value = root;
    lattice.process_offset.reset();
    structure.lattice = std::move(lattice);
  }
}

/// A body without cells has no strut, wall or cell to limit: such limits say nothing about it.
void forget_cell_limits(CrashCase& crash_case) {
  auto& limits = crash_case.limits;
  limits.erase(std::remove_if(limits.begin(), limits.end(),
                              [](const Limit& limit) {
                                return limit.quantity == LimitedQuantity::wall ||
                                       limit.quantity == LimitedQuantity::cells_across;
                              }),
               limits.end());
}

/// What a search copies again and again: the case without its table of inputs.
CrashCase without_table(CrashCase crash_case) {
  crash_case.all_quantities.clear();
  return crash_case;
}

const LatticeInput* first_lattice(const CrashCase& crash_case) {
  for (const StructureInput& structure : crash_case.structures)
    if (structure.lattice)
      return &*structure.lattice;
  return nullptr;
}

} // namespace

double up_to_step(double number, double step) {
  return std::ceil(number / step * (1 - 1e-12)) * step;
}

double grading_of(const CrashCase& crash_case) {
  const LatticeInput* lattice = first_lattice(crash_case);
  return lattice == nullptr ? 1 : lattice->size_root.value / lattice->size_tip.value;
}

double tip_size_for(const UnitCell& cell, double density, double cell_edge, double grading) {
  const double middle = is_sized(cell) ? size_ratio(cell, density) * cell_edge : density;
  return 2 * middle / (1 + grading);
}

DesignFamily sized_lattice(const CrashCase& crash_case, const Catalogue& catalogue, const std::string& cell_id,
                           const std::string& material, double cell_edge, double low, double high, Steps steps) {
  const UnitCell& cell = catalogue.cell(cell_id);
  const double grading = grading_of(crash_case);
  DesignFamily family;
  family.label = fmt::format("{}, {}, cell {}", cell.name, material, show(cell_edge, Dimension::length));
  family.cell = cell_id;
  family.material = material;
  family.cell_edge = cell_edge;
  // Both ends of the grading must stay inside what was asked and what the entry knows.
  const double small = std::min(1.0, grading), large = std::max(1.0, grading);
  family.low = std::max(low, cell.size_ratio_range.low * cell_edge * (1 + inside)) / small;
  family.high = std::min(high, cell.size_ratio_range.high * cell_edge * (1 - inside)) / large;
  const bool whole_steps = steps == Steps::whole && grading != 1;
  family.design = [original = without_table(crash_case), &cell, material, cell_edge, grading,
                   whole_steps](double tip) {
    CrashCase changed = original;
    const double root = tip * grading;
    set_lattice(changed, cell, material, cell_edge, tip, whole_steps ? up_to_step(root, size_step) : root);
    return changed;
  };
  return family;
}

DesignFamily empty_skin(const CrashCase& crash_case) {
  const LatticeInput* lattice = first_lattice(crash_case);
  std::string material = lattice == nullptr ? "" : lattice->material;
  for (const StructureInput& structure : crash_case.structures)
    if (structure.skin)
      material = structure.skin->material;
  DesignFamily family;
  family.label = fmt::format("Empty skin, {}", material);
  family.material = material;
  family.low = thinnest_skin;
  family.high = thickest_skin;
  family.design = [original = without_table(crash_case), material](double thickness) {
    CrashCase changed = original;
    forget_as_built(changed);
    forget_cell_limits(changed);
    for (StructureInput& structure : changed.structures) {
      structure.lattice.reset();
      if (!structure.skin)
        structure.skin = SkinInput{material, {}, {}};
      structure.skin->thickness.value = thickness;
    }
    return changed;
  };
  return family;
}

DesignFamily foam_filled(const CrashCase& crash_case, const std::string& foam, const std::string& material) {
  DesignFamily family;
  family.label = fmt::format("{}, {}", foam, material);
  family.cell = foam;
  family.material = material;
  family.step = density_step;
  family.low = lightest_foam;
  family.high = densest_foam;
  family.design = [original = without_table(crash_case), foam, material](double density) {
    CrashCase changed = original;
    UnitCell named;
    named.id = foam;
    named.cell_class = CellClass::foam;
    set_lattice(changed, named, material, 0, density, density);
    forget_cell_limits(changed);
    for (StructureInput& structure : changed.structures)
      structure.lattice->crush_direction = "100"; // a foam is the same in every direction
    return changed;
  };
  return family;
}

} // namespace crushwright
