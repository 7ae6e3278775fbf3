#include "crash_case/structure_reader.hpp"

#include "column_check/bolt_reader.hpp"
#include "crash_case/lattice_reader.hpp"
#include "envelope/envelope_reader.hpp"
#include "load_path/attachment_reader.hpp"
#include "packaging/packaging_reader.hpp"
#include "yaml_input/spread.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <string_view>
#include <tuple>

namespace crushwright {
namespace {

constexpr int fewest_layers = 4;
constexpr int most_layers = 2000;
constexpr const char* all_structures = "structures";

Mapping with_structure_keys(Mapping structure) {
  structure.allow({"at", "mirrored_as", "sections", "surface", "packaging", "parts", "lattice", "skin", "end_plates",
                   "as_built", "fixed_mass", "layers", "attachment", "trigger", "temperature"});
  return structure;
}

Mapping with_as_built_keys(Mapping as_built) {
  as_built.allow({"weighed_mass", "measured_size", "measured_skin_thickness"});
  return as_built;
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

Quantity trigger_factor(const Mapping& trigger, const char* key) {
  const auto factor = trigger.optional_quantity(key, Dimension::fraction, {0, 1, true, false});
  if (factor)
    return *factor;
  Quantity one = nothing(Dimension::fraction);
  one.value = 1;
  return one;
}

TriggerInput read_trigger(Mapping trigger, const StructureInput& structure) {
  trigger.allow({"rows", "length", "size_factor", "skin_factor"});
  TriggerInput input;
  input.length = trigger.optional_quantity("length", Dimension::length, Bounds::positive());
  const auto rows = trigger.optional_integer("rows", 1, 1000);
  const bool has_rows = structure.lattice && structure.lattice->cell_edge.value > 0;
  if (rows && input.length)
    trigger.fail("length", "the trigger's extent is stated twice", "Keep `rows` or `length`.");
  if (!rows && !input.length)
    trigger.fail("", "nothing says how far the trigger reaches", "Add `rows: 2` or `length: 20 mm`.");
  if (rows && !has_rows)
    trigger.fail("rows", "the structure has no cells whose rows could be counted",
                 "Write `length` in place of `rows`.");
  if (rows)
    input.rows = *rows;
  const double extent = input.length ? input.length->value : input.rows * structure.lattice->cell_edge.value;
  if (extent >= structure.envelope.length())
    trigger.fail(input.length ? "length" : "rows", "the trigger reaches over the whole structure",
                 "Shorten it, or make the whole structure weaker.");
  for (const auto& [key, there, what] : {std::tuple{"size_factor", structure.lattice.has_value(), "lattice"},
                                         std::tuple{"skin_factor", structure.skin.has_value(), "skin"}})
    if (!there && trigger.has(key))
      trigger.fail(key, fmt::format("the structure has no {} that this could weaken", what), "Delete the line.");
  input.size_factor = trigger_factor(trigger, "size_factor");
  input.skin_factor = trigger_factor(trigger, "skin_factor");
  if (input.size_factor.value == 1 && input.skin_factor.value == 1)
    trigger.fail("", "the trigger weakens nothing", "Write a `size_factor` or a `skin_factor` below 1.");
  return input;
}

/// Temperatures at the ends, or a list of stations.
std::vector<TemperaturePoint> read_temperatures(const Mapping& structure, double length) {
  const auto degrees = [](const Mapping& from, const char* key) {
    return from.quantity(key, Dimension::temperature, Bounds::positive()).value;
  };
  if (!structure.is_list("temperature")) {
    auto ends = structure.optional_mapping("temperature");
    if (!ends)
      return {};
    ends->allow({"tip", "root"});
    return {{0, degrees(*ends, "tip")}, {length, degrees(*ends, "root")}};
  }
  std::vector<TemperaturePoint> points;
  for (Mapping& point : structure.list("temperature")) {
    point.allow({"station", "value"});
    const double station = point.quantity("station", Dimension::length, Bounds::closed(0, length)).value;
    if (!points.empty() && station <= points.back().station)
      point.fail("station", "the stations of the temperatures do not rise",
                 "List the points from the struck end to the attachment, each once.");
    points.push_back({station, degrees(point, "value")});
  }
  return points;
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
  input.layer_count = structure.optional_integer("layers", fewest_layers, most_layers).value_or(input.layer_count);
  input.envelope = read_envelope(structure, input.layer_count);
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
  if (auto attachment = structure.optional_mapping("attachment")) {
    input.attachment = read_attachment(*attachment);
    attachment->allow({"capacity", "stiffness", "crush_room", "bolts"});
    input.bolts = read_bolts(*attachment);
  }
  if (auto trigger = structure.optional_mapping("trigger"))
    input.trigger = read_trigger(*trigger, input);
  input.temperatures = read_temperatures(structure, input.envelope.length());
  if (auto packaging = structure.optional_mapping("packaging"))
    input.packaging = std::make_shared<const Packaging>(
        input.envelope, read_packaging(*packaging, input.envelope, input.lateral), input.layer_count);
  return input;
}

/// The same body on the other side of the car: turned about the vertical plane, y of the opposite sign.
StructureInput mirrored(const StructureInput& original, const std::string& id) {
  StructureInput twin = original;
  twin.id = id;
  twin.mirror_of = original.id;
  twin.lateral = -original.lateral;
  twin.envelope = mirrored(original.envelope);
  return twin;
}

/// A body whose mirror would be itself.
bool lies_in_the_middle(const StructureInput& structure) {
  const Section& tip = structure.envelope.sections.front();
  constexpr double same = 1e-6; // of a mesh, whose two halves differ in the last digits
  return structure.envelope.surface ? std::abs(structure.lateral + centroid_of(tip)[0]) < same
                                    : structure.lateral == 0 && tip.centre[0] == 0;
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
    if (lies_in_the_middle(structures.back()))
      fail_mirror_name(entry, twin, fmt::format("would lie on {} itself, whose axis is in the middle of the car", id),
                       "Place the structure with `at: {y: ...}`, or delete the line.");
    structures.push_back(mirrored(structures.back(), twin));
  }
  return structures;
}

} // namespace crushwright
