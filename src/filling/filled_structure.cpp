#include "crushwright/errors.hpp"
#include "crushwright/filling.hpp"
#include "estimate/ingredients.hpp"
#include "filling/drawn_lattice.hpp"
#include "quantities/units.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace crushwright {
namespace {

/// Enough for about half a per cent of a lattice of a tenth of metal.
constexpr std::size_t wall_samples = 400'000;

const StructureInput& original_of(const CrashCase& crash_case, const std::string& id) {
  const auto named = [&](const std::string& name) {
    return std::find_if(crash_case.structures.begin(), crash_case.structures.end(),
                        [&](const StructureInput& each) { return each.id == name; });
  };
  auto found = named(id);
  if (found != crash_case.structures.end() && !found->mirror_of.empty())
    found = named(found->mirror_of);
  if (found == crash_case.structures.end()) {
    std::string known;
    for (const StructureInput& each : crash_case.structures)
      known += (known.empty() ? "" : ", ") + each.id;
    fail_in_case(crash_case, "structures", fmt::format("there is no structure `{}`", id),
                 fmt::format("Name one of these: {}.", known));
  }
  return *found;
}

const UnitCell& fillable_cell(const CrashCase& crash_case, const Catalogue& catalogue, const StructureInput& input) {
  if (!input.lattice)
    fail_in_case(crash_case, fmt::format("structures.{}", input.id), "the structure has no lattice to be placed",
                 "Add a `lattice:` block, or name another structure.");
  const UnitCell& cell = catalogue.cell(input.lattice->cell);
  if (!is_sized(cell))
    fail_in_case(crash_case, path_of(input, "lattice.cell"),
                 fmt::format("{} has no strut or wall that can be placed: {}", cell.id,
                             cell.cell_class == CellClass::foam ? "a foam has no cell of a known shape"
                                                                : "a cell given as a mesh has one size"),
                 "Choose a cell of struts, sheets or plates.");
  return cell;
}

LatticePlacement placement_of(const StructureInput& input) {
  const LatticeInput& lattice = *input.lattice;
  PlacementChoice choice;
  choice.cell_edge = lattice.cell_edge.value;
  choice.crush_direction = lattice.crush_direction;
  choice.turn = lattice.turn;
  choice.length = input.envelope.length();
  choice.middle = centroid_of(section_at(input.envelope, 0.5 * choice.length));
  choice.origin = lattice.origin;
  return place_lattice(choice);
}

TrimOptions trim_options(const FilledStructure& filled, const LatticeInput& lattice) {
  TrimOptions options;
  options.inset = filled.skin_thickness;
  options.skin = filled.skin_thickness > 0;
  options.first_station = filled.tip_plate;
  options.last_station = filled.length - filled.root_plate;
  options.tip_plate = filled.tip_plate > 0;
  options.root_plate = filled.root_plate > 0;
  options.loose_ends = lattice.loose_ends;
  return options;
}

/// Lattice by the layers of the estimate, at the sizes as drawn.
double mass_by_layers(const FilledStructure& filled, const StructureInput& input, const BaseMaterial& material) {
  LatticeFill fill;
  fill.cell = &filled.cell;
  fill.material = &material;
  fill.cell_edge = filled.placement.cell_edge;
  fill.size_tip = input.lattice->size_tip.value;
  fill.size_root = input.lattice->size_root.value;
  fill.length = filled.length;
  fill.size_factor = input.lattice->size_factor;
  fill.envelope = &input.envelope;
  return lattice_mass(fill, input.envelope, filled.skin_thickness, input.layer_count);
}

void explain(FilledStructure& filled, const LatticeInput& lattice) {
  const double plates = filled.tip_plate + filled.root_plate;
  if (plates > 0)
    filled.notes.push_back(fmt::format("End plates take {} of the length, which the layers of the estimate count as "
                                       "lattice.",
                                       show(plates, Dimension::length)));
  if (filled.skin_thickness > 0)
    filled.notes.push_back(
        "The skin is measured at right angles to the surface here, and in the plane of the section "
        "in the estimate; on a tapered body the room differs a little.");
  if (lattice.process_offset && lattice.process_offset->value != 0)
    filled.notes.push_back(fmt::format("Sizes are as drawn, for the printer; the estimate adds the process offset of "
                                       "{}.",
                                       show(lattice.process_offset->value, Dimension::length)));
}

} // namespace

double FilledStructure::lattice_mass() const {
  return metal_density * (struts ? struts->report.metal_inside.value : walls->metal.value);
}

double FilledStructure::estimated_mass() const {
  return metal_density * (struts ? struts->report.estimated : walls->estimated);
}

FilledStructure filled_structure(const CrashCase& crash_case, const Catalogue& catalogue,
                                 const std::string& structure) {
  const StructureInput& input = original_of(crash_case, structure);
  if (input.trigger)
    fail_in_case(crash_case, path_of(input, "trigger"),
                 "a filled body would have its first rows at full strength: a trigger is not drawn",
                 "For the body to print delete the block and weaken the rows by `lattice.size_factor`.");
  FilledStructure filled;
  filled.id = input.id;
  filled.cell = fillable_cell(crash_case, catalogue, input);
  const LatticeInput& lattice = *input.lattice;
  const BaseMaterial& material = catalogue.material(lattice.material);
  filled.material = material.id;
  if (!material.density)
    fail_in_case(crash_case, path_of(input, "lattice.material"),
                 fmt::format("{} has no density, so the lattice has no mass", material.id),
                 "Add it to a material file of your own, or choose another material.");
  filled.metal_density = material.density->value;
  for (const StructureInput& each : crash_case.structures)
    if (each.mirror_of == input.id)
      filled.mirrors.push_back(each.id);
  filled.outer = surface_of(input.envelope);
  filled.skin_thickness = input.skin ? input.skin->thickness.value : 0;
  if (input.end_plates) {
    filled.tip_plate = input.end_plates->tip_thickness.value;
    filled.root_plate = input.end_plates->root_thickness.value;
  }
  filled.length = input.envelope.length();
  at_case_line(crash_case, path_of(input, "lattice"), "Change the lattice, the skin or the body.", [&] {
    filled.placement = placement_of(input);
    filled.size = graded_size(lattice.size_tip.value, lattice.size_root.value, filled.length, lattice.size_factor);
    if (filled.cell.cell_class == CellClass::strut)
      filled.struts = fill_with_struts(filled.cell, filled.placement, filled.size, cutting_surface(filled),
                                       trim_options(filled, lattice));
    else
      filled.walls = sampled_fill(filled, wall_samples);
    filled.layer_mass = mass_by_layers(filled, input, material);
  });
  explain(filled, lattice);
  return filled;
}

PrintedBody FilledStructure::printed_body() const {
  PrintedBody body;
  if (skin_thickness > 0 || !struts)
    body.surface = &outer;
  if (!struts)
    return body;
  body.struts = &struts->lattice.body;
  for (const NodePlace place : struts->lattice.places)
    body.held.push_back(place == NodePlace::inside ? 0 : 1);
  return body;
}

} // namespace crushwright
