#include "crash_case/structure_reader.hpp"

#include "envelope/envelope_reader.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <string_view>

namespace crushwright {
namespace {

constexpr int fewest_layers = 4;
constexpr int most_layers = 2000;
constexpr const char* all_structures = "structures";

Mapping with_structure_keys(Mapping structure) {
  structure.allow({"at", "mirrored_as", "sections", "parts", "lattice", "skin", "end_plates", "as_built",
                   "fixed_mass", "layers"});
  return structure;
}

Mapping with_as_built_keys(Mapping as_built) {
  as_built.allow({"weighed_mass", "measured_size", "measured_skin_thickness"});
  return as_built;
}

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

/// Three digits, the direction in cell axes; what the catalogue knows for it is seen with the cell.
std::string crush_direction(const Mapping& lattice) {
  std::string direction = lattice.text_or("crush_direction", "100");
  const bool digits = direction.size() == 3 && direction.find_first_not_of("0123456789") == std::string::npos;
  if (!digits || direction == "000")
    lattice.fail("crush_direction", fmt::format("`{}` is no direction in cell axes", direction),
                 "Write three digits in quotes, for instance \"100\" (a cell edge), \"001\" (a honeycomb's axis), "
                 "\"110\" or \"111\".");
  return direction;
}

std::optional<Evidence> asked_evidence(const Mapping& lattice) {
  if (!lattice.has("evidence"))
    return std::nullopt;
  const std::vector<Evidence> kinds = {Evidence::measured, Evidence::published, Evidence::computed,
                                       Evidence::generic};
  std::vector<std::string> words;
  words.reserve(kinds.size());
  for (const Evidence kind : kinds)
    words.emplace_back(name_of(kind));
  const std::string word = lattice.choice("evidence", words);
  return kinds[static_cast<std::size_t>(std::find(words.begin(), words.end(), word) - words.begin())];
}

LatticeInput read_lattice(Mapping lattice) {
  lattice.allow({"cell", "material", "crush_direction", "cell_edge", "strut", "wall", "relative_density",
                 "process_offset", "evidence"});
  LatticeInput input;
  input.cell = lattice.text("cell");
  input.material = lattice.text("material");
  input.crush_direction = crush_direction(lattice);
  input.evidence = asked_evidence(lattice);
  read_size(lattice, input);
  input.cell_edge = nothing(Dimension::length);
  if (input.size_key != "relative_density")
    input.cell_edge = lattice.quantity("cell_edge", Dimension::length, Bounds::positive());
  else if (const auto edge = lattice.optional_quantity("cell_edge", Dimension::length, Bounds::positive()))
    input.cell_edge = *edge;
  input.process_offset =
      lattice.optional_quantity("process_offset", Dimension::length, Bounds::closed(-0.001, 0.001));
  if (input.process_offset && input.size_key == "relative_density")
    lattice.fail("process_offset", "an offset is added to a strut or wall, and this lattice is sized by its density",
                 "Delete the line, and state the relative density as it is built.");
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

AsBuiltInput read_as_built(const Mapping& block) {
  const Mapping as_built = with_as_built_keys(block);
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

void check_as_built(const Mapping& structure, const StructureInput& input) {
  if (!input.as_built)
    return;
  if (!input.lattice)
    structure.fail("as_built", "weighing tells the size of a lattice, and this structure has none",
                   "Delete the block, or add a lattice.");
  const Mapping as_built = with_as_built_keys(structure.mapping("as_built"));
  if (input.as_built->measured_size && input.lattice->size_key == "relative_density")
    as_built.fail("measured_size",
                  "this lattice is sized by its relative density and has no strut or wall to measure",
                  "Give the `weighed_mass` instead.");
  if (input.lattice->process_offset && (input.as_built->weighed_mass || input.as_built->measured_size))
    structure.fail("as_built", "the size is measured here, so that the lattice's `process_offset` would count twice",
                   "Delete the line `process_offset`.");
  if (input.as_built->measured_skin_thickness && !input.skin)
    as_built.fail("measured_skin_thickness", "the structure has no skin", "Delete the line, or add a `skin:` block.");
  if (!input.as_built->weighed_mass && !input.as_built->measured_size && !input.as_built->measured_skin_thickness)
    structure.fail("as_built", "the block says nothing",
                   "Add `weighed_mass`, `measured_size` or `measured_skin_thickness`, or delete it.");
}

StructureInput read_structure(const std::string& id, const Mapping& entry) {
  const Mapping structure = with_structure_keys(entry);
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
  check_as_built(structure, input);
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

[[noreturn]] void fail_mirror_name(const Mapping& structure, const std::string& name, const std::string& what,
                                   const std::string& what_to_do) {
  with_structure_keys(structure).fail("mirrored_as", fmt::format("`{}` {}", name, what), what_to_do);
}

/// Name of the mirrored structure; empty when there is none.
std::string mirror_name(const Mapping& structure) {
  const std::string name = with_structure_keys(structure).text_or("mirrored_as", "");
  const bool usable = std::all_of(name.begin(), name.end(), [](char letter) {
    return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') || (letter >= '0' && letter <= '9') ||
           letter == '_' || letter == '-';
  });
  if (!usable || name == all_structures)
    fail_mirror_name(structure, name, "cannot name the mirrored structure",
                     "Make the name of letters (a to z), digits, `_` and `-`; `structures` means all together.");
  return name;
}

} // namespace

std::vector<StructureInput> read_structures(const Mapping& root) {
  const auto entries = root.entries("structures");
  if (entries.empty())
    root.fail("structures", "the case has no structure", "Add at least one under `structures:`.");
  std::vector<StructureInput> structures;
  for (const auto& [id, entry] : entries) {
    structures.push_back(read_structure(id, entry));
    if (id == all_structures)
      root.fail(all_structures, "`structures` is the word for all structures together and cannot name one",
                "Give the structure another name.");
    const std::string twin = mirror_name(entry);
    if (twin.empty())
      continue;
    const auto has_name = [&](const auto& each) { return each.id == twin; };
    if (std::any_of(entries.begin(), entries.end(), [&](const auto& each) { return each.first == twin; }) ||
        std::any_of(structures.begin(), structures.end(), has_name))
      fail_mirror_name(entry, twin, "is the name of another structure", "Write a name that no other structure has.");
    if (structures.back().lateral == 0 && structures.back().envelope.sections.front().centre[0] == 0)
      fail_mirror_name(entry, twin, fmt::format("would lie on {} itself, whose axis is in the middle of the car", id),
                       "Place the structure with `at: {y: ...}`, or delete the line.");
    structures.push_back(mirrored(structures.back(), twin));
  }
  return structures;
}

} // namespace crushwright
