#include "crash_case/structure_reader.hpp"

#include "envelope/envelope_reader.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr int fewest_layers = 4;
constexpr int most_layers = 2000;

Quantity nothing(Dimension dimension) {
  Quantity quantity;
  quantity.dimension = dimension;
  return quantity;
}

/// The key that says how big the cell's strut or wall is; which one fits the cell is checked with the catalogue.
std::string size_key(const Mapping& lattice) {
  std::string found;
  for (const char* key : {"strut", "wall", "relative_density"}) {
    if (!lattice.has(key))
      continue;
    if (!found.empty())
      lattice.fail(key, fmt::format("the lattice is already sized by `{}`", found), "Keep one of the two.");
    found = key;
  }
  if (found.empty())
    lattice.fail("", "the lattice has no size",
                 "Add `strut: 1.2 mm` (strut cells), `wall: 0.8 mm` (sheets, honeycombs) or `relative_density: 12 %` "
                 "(foams).");
  return found;
}

void read_size(const Mapping& lattice, LatticeInput& input) {
  input.size_key = size_key(lattice);
  const Dimension dimension = input.size_key == "relative_density" ? Dimension::fraction : Dimension::length;
  const Bounds bounds = dimension == Dimension::fraction ? Bounds::open(0, 1) : Bounds::positive();
  if (lattice.is_mapping(input.size_key)) {
    Mapping graded = lattice.mapping(input.size_key);
    graded.allow({"tip", "root", "value", "low", "high", "coefficient_of_variation", "source", "standing"});
    if (graded.has("tip") || graded.has("root")) {
      graded.allow({"tip", "root"});
      input.size_tip = graded.quantity("tip", dimension, bounds);
      input.size_root = graded.quantity("root", dimension, bounds);
      return;
    }
  }
  input.size_tip = input.size_root = lattice.quantity(input.size_key, dimension, bounds);
}

LatticeInput read_lattice(Mapping lattice) {
  lattice.allow(
      {"cell", "material", "crush_direction", "cell_edge", "strut", "wall", "relative_density", "process_offset"});
  LatticeInput input;
  input.cell = lattice.text("cell");
  input.material = lattice.text("material");
  input.crush_direction = lattice.text_or("crush_direction", "100");
  read_size(lattice, input);
  input.cell_edge = nothing(Dimension::length);
  if (input.size_key != "relative_density")
    input.cell_edge = lattice.quantity("cell_edge", Dimension::length, Bounds::positive());
  else if (const auto edge = lattice.optional_quantity("cell_edge", Dimension::length, Bounds::positive()))
    input.cell_edge = *edge;
  input.process_offset =
      lattice.optional_quantity("process_offset", Dimension::length, Bounds::closed(-0.001, 0.001));
  return input;
}

SkinInput read_skin(Mapping skin) {
  skin.allow({"material", "thickness", "first_peak_ratio"});
  SkinInput input;
  input.material = skin.text("material");
  input.thickness = skin.quantity("thickness", Dimension::length, Bounds::positive());
  input.first_peak_ratio = skin.optional_quantity("first_peak_ratio", Dimension::number, Bounds::closed(1, 20));
  return input;
}

EndPlateInput read_end_plates(Mapping plates) {
  plates.allow({"material", "tip_thickness", "root_thickness"});
  EndPlateInput input;
  input.material = plates.text("material");
  input.tip_thickness = input.root_thickness = nothing(Dimension::length);
  if (const auto tip = plates.optional_quantity("tip_thickness", Dimension::length, Bounds::not_negative()))
    input.tip_thickness = *tip;
  if (const auto root = plates.optional_quantity("root_thickness", Dimension::length, Bounds::not_negative()))
    input.root_thickness = *root;
  return input;
}

AsBuiltInput read_as_built(Mapping as_built) {
  as_built.allow({"weighed_mass", "measured_size", "measured_skin_thickness"});
  AsBuiltInput input;
  input.weighed_mass = as_built.optional_quantity("weighed_mass", Dimension::mass, Bounds::positive());
  input.measured_size = as_built.optional_quantity("measured_size", Dimension::length, Bounds::positive());
  input.measured_skin_thickness =
      as_built.optional_quantity("measured_skin_thickness", Dimension::length, Bounds::positive());
  return input;
}

void read_place(const Mapping& structure, StructureInput& input) {
  auto place = structure.optional_mapping("at");
  if (!place)
    return;
  place->allow({"y", "z"});
  if (const auto y = place->optional_quantity("y", Dimension::length))
    input.lateral = y->value;
  if (const auto z = place->optional_quantity("z", Dimension::length))
    input.vertical = z->value;
}

StructureInput read_structure(const std::string& id, Mapping structure) {
  structure.allow({"at", "mirrored_as", "sections", "parts", "lattice", "skin", "end_plates", "as_built",
                   "fixed_mass", "layers"});
  StructureInput input;
  input.id = id;
  read_place(structure, input);
  input.envelope = read_envelope(structure);
  if (auto lattice = structure.optional_mapping("lattice"))
    input.lattice = read_lattice(*lattice);
  if (auto skin = structure.optional_mapping("skin"))
    input.skin = read_skin(*skin);
  if (!input.lattice && !input.skin)
    structure.fail("", "the structure has neither a lattice nor a skin, so nothing that crushes",
                   "Add a `lattice:` block, a `skin:` block, or both.");
  if (auto plates = structure.optional_mapping("end_plates"))
    input.end_plates = read_end_plates(*plates);
  if (auto as_built = structure.optional_mapping("as_built"))
    input.as_built = read_as_built(*as_built);
  if (input.as_built && !input.lattice)
    structure.fail("as_built", "weighing tells the size of a lattice, and this structure has none",
                   "Delete the block, or add a lattice.");
  input.fixed_mass = nothing(Dimension::mass);
  if (const auto fixed = structure.optional_quantity("fixed_mass", Dimension::mass, Bounds::not_negative()))
    input.fixed_mass = *fixed;
  input.layer_count = structure.optional_integer("layers", fewest_layers, most_layers).value_or(input.layer_count);
  return input;
}

/// The same body on the other side of the car: sections turned about the vertical plane, y of the opposite sign.
StructureInput mirrored(const StructureInput& original, const std::string& id) {
  StructureInput twin = original;
  twin.id = id;
  twin.mirror_of = original.id;
  twin.lateral = -original.lateral;
  for (Section& section : twin.envelope.sections) {
    section.centre[0] = -section.centre[0];
    for (auto& corner : section.corners)
      corner[0] = -corner[0];
    // Mirroring turns the sense of rotation; reading backwards turns it again.
    std::reverse(section.corners.begin(), section.corners.end());
  }
  return twin;
}

} // namespace

std::vector<StructureInput> read_structures(const Mapping& root) {
  const auto entries = root.entries("structures");
  if (entries.empty())
    root.fail("structures", "the case has no structure", "Add at least one under `structures:`.");
  std::vector<StructureInput> structures;
  for (const auto& [id, entry] : entries) {
    structures.push_back(read_structure(id, entry));
    Mapping again = entry;
    again.allow({"at", "mirrored_as", "sections", "parts", "lattice", "skin", "end_plates", "as_built", "fixed_mass",
                 "layers"});
    if (!again.has("mirrored_as"))
      continue;
    const std::string twin = again.text("mirrored_as");
    const bool taken =
        std::any_of(entries.begin(), entries.end(), [&](const auto& each) { return each.first == twin; });
    if (taken || twin == "structures" || twin.find('.') != std::string::npos)
      again.fail("mirrored_as", fmt::format("`{}` cannot name the mirrored structure", twin),
                 "Write an id that no other structure has, without a point.");
    structures.push_back(mirrored(structures.back(), twin));
  }
  return structures;
}

} // namespace crushwright
