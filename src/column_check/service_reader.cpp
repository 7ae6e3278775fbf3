#include "column_check/service_reader.hpp"

#include "quantities/units.hpp"
#include "yaml_input/spread.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr const char* every_structure = "structures";

Quantity borne(const Mapping& holder, std::string_view key, Dimension dimension, const Bounds& bounds) {
  return without_spread(holder, key, dimension, bounds,
                        "Give the value that must be borne, alone or with its source; the load's `factor` covers the "
                        "rest.");
}

bool is_zero(const std::array<Quantity, 3>& vector) {
  return std::all_of(vector.begin(), vector.end(), [](const Quantity& each) { return each.value == 0; });
}

/// {x, y, z}; what is left out is 0.
std::array<Quantity, 3> read_vector(const Mapping& load, const char* key, Dimension dimension,
                                    const std::string& example) {
  std::array<Quantity, 3> vector{nothing(dimension), nothing(dimension), nothing(dimension)};
  if (!load.has(key))
    return vector;
  if (!load.is_mapping(key))
    load.fail(key, "this has a direction: x (towards the attachment), y (to the left) and z (up) were expected",
              fmt::format("Write for instance `{}: {}`.", key, example));
  Mapping parts = load.mapping(key);
  parts.allow({"x", "y", "z"});
  constexpr std::array<const char*, 3> axes{"x", "y", "z"};
  for (std::size_t i = 0; i < axes.size(); ++i)
    if (parts.has(axes[i]))
      vector[i] = borne(parts, axes[i], dimension, Bounds::any());
  if (is_zero(vector))
    load.fail(key, "all three parts are 0", "Give one that is not, or delete the line.");
  return vector;
}

void read_pressure(const Mapping& load, ServiceLoad& read) {
  if (load.has("pressure") != load.has("side"))
    load.fail(load.has("side") ? "side" : "pressure",
              load.has("side") ? "no `pressure` acts on that side" : "the side on which it acts is missing",
              load.has("side") ? "Add for instance `pressure: 5 kPa`, or delete the line."
                               : "Add `side:` with left, right, upper or lower.");
  if (!load.has("pressure"))
    return;
  read.pressure = borne(load, "pressure", Dimension::stress, Bounds::any());
  if (read.pressure->value == 0)
    load.fail("pressure", "a pressure of 0 loads nothing", "Give its size, or delete the line and `side`.");
  read.pressure_side = load.choice("side", {"left", "right", "upper", "lower"});
}

void read_carried_mass(const Mapping& load, ServiceLoad& read) {
  read.carried_mass = nothing(Dimension::mass);
  if (!load.has("carried_mass"))
    return;
  if (!load.has("acceleration"))
    load.fail("carried_mass", "a mass loads the structure only when it is accelerated",
              "Add for instance `acceleration: {z: 8 g}`; a weight at rest is `acceleration: {z: 1 g}`.");
  read.carried_mass = borne(load, "carried_mass", Dimension::mass, Bounds::positive());
}

void read_station(const Mapping& load, ServiceLoad& read) {
  read.station = nothing(Dimension::length);
  const char* at_a_place = load.has("force") ? "force" : load.has("carried_mass") ? "carried_mass" : nullptr;
  if (load.has("station") && at_a_place == nullptr)
    load.fail("station", "neither a `force` nor a `carried_mass` acts at a station in this load",
              "Delete the line: pressure and acceleration act over the whole length.");
  if (at_a_place != nullptr && !load.has("station"))
    load.fail(at_a_place, "the place where it acts is missing",
              "Add `station:`, 0 mm at the struck end and growing to the attachment.");
  if (at_a_place != nullptr)
    read.station = without_spread(load, "station", Dimension::length, Bounds::not_negative());
}

Quantity read_factor(const Mapping& load) {
  if (load.has("factor"))
    return without_spread(load, "factor", Dimension::number, Bounds{1});
  Quantity one = nothing(Dimension::number);
  one.value = 1;
  return one;
}

/// Its `structure` is the word that the file gives, `structures` for all.
ServiceLoad read_load(const std::string& id, Mapping load, const std::vector<std::string>& words) {
  load.allow({"of", "force", "station", "pressure", "side", "acceleration", "carried_mass", "factor", "cycles",
              "alternating"});
  ServiceLoad read;
  read.id = id;
  read.structure = load.choice("of", words);
  if (!load.has("force") && !load.has("pressure") && !load.has("acceleration"))
    load.fail("", "nothing acts in this load", "Add `force`, `pressure` or `acceleration`.");
  read.force = read_vector(load, "force", Dimension::force, "{x: -8 kN, y: 2 kN}");
  read.acceleration = read_vector(load, "acceleration", Dimension::acceleration, "{z: 8 g}");
  read_pressure(load, read);
  read_carried_mass(load, read);
  read_station(load, read);
  read.factor = read_factor(load);
  read.cycles = load.optional_number("cycles", Bounds{1}).value_or(0);
  read.alternating = load.flag_or("alternating", !load.has("force") && !load.has("pressure"));
  return read;
}

} // namespace

std::vector<ServiceLoad> read_service_loads(const Mapping& root, const std::vector<std::string>& structures) {
  std::vector<std::string> words = structures;
  words.emplace_back(every_structure);
  std::vector<ServiceLoad> loads;
  for (const auto& [id, mapping] : root.entries("service_loads")) {
    ServiceLoad load = read_load(id, mapping, words);
    const std::string of = load.structure;
    for (const std::string& structure : structures) {
      if (of != every_structure && of != structure)
        continue;
      load.structure = structure;
      loads.push_back(load);
    }
  }
  return loads;
}

void check_service_stations(const Mapping& root, const std::vector<ServiceLoad>& loads, const std::string& structure,
                            double length) {
  for (const ServiceLoad& load : loads)
    if (load.structure == structure && load.station.value > length)
      root.fail_at_path(load.station.path,
                        fmt::format("the load acts beyond the attachment of {}, which is {} long", structure,
                                    show(length, Dimension::length)),
                        "Give a station from 0 mm, the struck end, to that length.");
}

} // namespace crushwright
