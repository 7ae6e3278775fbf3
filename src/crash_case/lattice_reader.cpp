#include "crash_case/lattice_reader.hpp"

#include "crushwright/errors.hpp"
#include "yaml_input/spread.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace crushwright {
namespace {

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

std::vector<double> places(const Mapping& field, std::string_view key) {
  std::vector<double> values;
  for (const Quantity& place : field.quantity_list(key, Dimension::length))
    values.push_back(place.value);
  return values;
}

SizeField read_size_factor(Mapping given) {
  given.allow({"station", "y", "z", "values"});
  SizeField field;
  field.station = places(given, "station");
  for (const auto& [key, list] : {std::pair{"y", &field.y}, std::pair{"z", &field.z}})
    *list = given.has(key) ? places(given, key) : std::vector<double>{0};
  for (const Quantity& value : given.quantity_list("values", Dimension::number, Bounds::positive()))
    field.values.push_back(value.value);
  try {
    require_usable(field);
  } catch (const OutOfDomain& fault) {
    given.fail("values", fault.what(),
               "List the places rising, and one factor for each point of the grid, station fastest, then y, then z.");
  }
  return field;
}

LooseEnds loose_ends(const Mapping& lattice) {
  const std::string word = lattice.choice_or("loose_ends", {"drop", "keep", "tie"}, "drop");
  return word == "keep" ? LooseEnds::keep : word == "tie" ? LooseEnds::tie : LooseEnds::drop;
}

void read_placement(Mapping placement, LatticeInput& input) {
  placement.allow({"origin", "turn"});
  if (placement.has("origin")) {
    const std::vector<double> origin = places(placement, "origin");
    if (origin.size() != 3)
      placement.fail("origin",
                     fmt::format("three lengths, [station, y, z], were expected; there are {}", origin.size()),
                     "Write it for instance as `origin: [0 mm, 0 mm, 0 mm]`, a corner of one cell.");
    input.origin = {origin[0], origin[1], origin[2]};
  }
  if (const auto turn = placement.optional_quantity("turn", Dimension::angle))
    input.turn = turn->value;
}

/// Where the lattice lies and how its size varies across the section.
void read_filling(const Mapping& lattice, LatticeInput& input) {
  if (auto placement = lattice.optional_mapping("placement"))
    read_placement(*placement, input);
  input.loose_ends = loose_ends(lattice);
  if (auto factor = lattice.optional_mapping("size_factor")) {
    if (input.size_key == "relative_density")
      lattice.fail("size_factor", "the factor multiplies a strut or wall, and this lattice is sized by its density",
                   "Delete the block, or choose a cell of struts or walls.");
    input.size_factor = read_size_factor(*factor);
  }
}

} // namespace

LatticeInput read_lattice(Mapping lattice) {
  lattice.allow({"cell", "material", "crush_direction", "cell_edge", "strut", "wall", "relative_density",
                 "process_offset", "evidence", "placement", "loose_ends", "size_factor", "brittle_plateau"});
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
  input.brittle_plateau = lattice.optional_quantity("brittle_plateau", Dimension::fraction, Bounds::closed(0.05, 1));
  read_filling(lattice, input);
  return input;
}

} // namespace crushwright
