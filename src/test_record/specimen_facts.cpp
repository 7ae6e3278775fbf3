#include "test_record/specimen_facts.hpp"

#include "quantities/units.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace crushwright {

namespace {

// Sizes measured one by one give the area to their rounding, 0.05 mm on 20 mm.
constexpr double area_tolerance = 0.005;
// A stated rate is often rounded to one digit.
constexpr double rate_tolerance = 0.15;
constexpr double heaviest_metal = 22'600; // osmium [kg/m^3]
constexpr double longest = 2;             // [m], far above any testing machine's room for a coupon

Bounds up_to(double highest) {
  return {0, highest, true, false};
}

void take(std::optional<double>& fact, const std::optional<double>& stated) {
  if (stated)
    fact = stated;
}

double area_of_sizes(const SpecimenFacts& facts) {
  if (facts.diameter)
    return std::numbers::pi / 4 * *facts.diameter * *facts.diameter;
  return *facts.width * *facts.depth;
}

void check_sizes(const Mapping& holder, const SpecimenFacts& facts) {
  if (facts.diameter && (facts.width || facts.depth))
    holder.fail("diameter", "a specimen is either round or a box; it has a diameter and a width or depth",
                "Delete the one that does not hold.");
  if (facts.width.has_value() != facts.depth.has_value())
    holder.fail(facts.width ? "width" : "depth",
                fmt::format("a box needs a width and a depth; there is only a {}", facts.width ? "width" : "depth"),
                "Add the other, or state the area alone.");
}

void settle_area(const Mapping& holder, SpecimenFacts& facts) {
  if (!facts.diameter && !facts.width)
    return;
  const double area = area_of_sizes(facts);
  if (facts.area && std::abs(*facts.area - area) > area_tolerance * area)
    holder.fail("area",
                fmt::format("the area is {}, but {} gives {}; they must agree within 0.5 %",
                            show(*facts.area, Dimension::area), facts.diameter ? "the diameter" : "width times depth",
                            show(area, Dimension::area)),
                "Correct the one that is wrong, or delete the area. The area is that of the outline, across the "
                "load, not of the metal in it.");
  if (!facts.area)
    facts.area = area;
}

bool states_size(const Mapping& holder) {
  return holder.has("area") || holder.has("width") || holder.has("depth") || holder.has("diameter");
}

void read_sizes(const Mapping& holder, SpecimenFacts& facts) {
  if (states_size(holder))
    facts.area = facts.width = facts.depth = facts.diameter = std::nullopt;
  take(facts.area, plain_fact(holder, "area", Dimension::area, up_to(longest * longest)));
  take(facts.width, plain_fact(holder, "width", Dimension::length, up_to(longest)));
  take(facts.depth, plain_fact(holder, "depth", Dimension::length, up_to(longest)));
  take(facts.diameter, plain_fact(holder, "diameter", Dimension::length, up_to(longest)));
  take(facts.height, plain_fact(holder, "height", Dimension::length, up_to(longest)));
  check_sizes(holder, facts);
  if (states_size(holder))
    settle_area(holder, facts);
}

void read_lattice_facts(const Mapping& holder, SpecimenFacts& facts, TestKind kind) {
  if (kind != TestKind::lattice_compression) {
    for (const std::string_view key : {"relative_density", "cells_across"})
      if (holder.has(key))
        holder.fail(key, fmt::format("this is a fact of a lattice, but `test` is {}", name_of(kind)),
                    "Delete it, or correct `test`.");
    return;
  }
  take(facts.relative_density, plain_fact(holder, "relative_density", Dimension::fraction, Bounds::open(0, 1)));
  take(facts.cells_across, holder.optional_number("cells_across", Bounds::closed(1, 1000)));
}

char separator_named(const std::string& word) {
  if (word == "comma")
    return ',';
  if (word == "semicolon")
    return ';';
  return word == "tab" ? '\t' : ' ';
}

/// One of two keys that mean two kinds of data.
std::string_view one_of(const Mapping& holder, std::string_view first, std::string_view second) {
  if (holder.has(first) && holder.has(second))
    holder.fail(second, fmt::format("`{}` and `{}` are both given; one was expected", first, second),
                "Keep the pair that is to be read: displacement with force, or strain with stress.");
  return holder.has(second) ? second : first;
}

struct Names {
  std::string along, load, time, specimen;
};

Names read_names(Mapping holder, bool with_specimen) {
  if (with_specimen)
    holder.allow({"displacement", "strain", "force", "stress", "time", "specimen"});
  else
    holder.allow({"displacement", "strain", "force", "stress", "time"});
  const std::string_view along = one_of(holder, "displacement", "strain");
  const std::string_view load = one_of(holder, "force", "stress");
  if (holder.has(along) && holder.has(load) && (along == "strain") != (load == "stress"))
    holder.fail(load, fmt::format("`{}` does not go with `{}`", load, along),
                "Give displacement with force, or strain with stress.");
  return {holder.text_or(along, ""), holder.text_or(load, ""), holder.text_or("time", ""),
          with_specimen ? holder.text_or("specimen", "") : std::string()};
}

} // namespace

std::optional<double> plain_fact(const Mapping& holder, std::string_view key, Dimension dimension,
                                 const Bounds& bounds) {
  const std::optional<Quantity> read = holder.optional_quantity(key, dimension, bounds);
  if (!read)
    return std::nullopt;
  if (read->low || read->high || read->coefficient_of_variation)
    holder.fail(key, "this fact of a specimen carries a spread, which nothing would use",
                "Give the value alone, or with its source.");
  return read->value;
}

const std::vector<std::string>& fact_keys() {
  static const std::vector<std::string> keys{
      "area",         "width", "depth",       "diameter",          "height",     "relative_density",
      "cells_across", "speed", "strain_rate", "machine_stiffness", "temperature"};
  return keys;
}

const std::vector<std::string>& table_keys() {
  static const std::vector<std::string> keys{"columns", "units", "separator", "decimal_mark",
                                             "compression_is_negative"};
  return keys;
}

SpecimenFacts read_facts(const Mapping& specimen, const SpecimenFacts& common, TestKind kind) {
  SpecimenFacts facts = common;
  read_sizes(specimen, facts);
  read_lattice_facts(specimen, facts, kind);
  if (specimen.has("speed") != specimen.has("strain_rate")) // the other, of `common`, would be of other tests
    facts.speed = facts.strain_rate = std::nullopt;
  take(facts.speed, plain_fact(specimen, "speed", Dimension::speed, up_to(1000)));
  take(facts.strain_rate, plain_fact(specimen, "strain_rate", Dimension::strain_rate, up_to(1e6)));
  take(facts.temperature, plain_fact(specimen, "temperature", Dimension::temperature, up_to(3000)));
  if (const auto stiffness = plain_fact(specimen, "machine_stiffness", Dimension::stiffness, Bounds::positive()))
    facts.machine_compliance = 1 / *stiffness;
  return facts;
}

void check_facts(const Mapping& specimen, const SpecimenFacts& facts, TestKind kind) {
  if (facts.mass && facts.area && facts.height) {
    const double density = *facts.mass / (*facts.area * *facts.height);
    if (density > heaviest_metal)
      specimen.fail("mass",
                    fmt::format("{} in {} times {} is {}, more than any metal weighs",
                                show(*facts.mass, Dimension::mass), show(*facts.area, Dimension::area),
                                show(*facts.height, Dimension::length), show(density, Dimension::density)),
                    "Check the units of mass, area and height.");
  }
  // Of a bar the parallel length counts, which is longer than the gauge length.
  if (kind == TestKind::metal_tension || !facts.speed || !facts.strain_rate || !facts.height)
    return;
  const double rate = *facts.speed / *facts.height;
  if (std::abs(rate - *facts.strain_rate) > rate_tolerance * rate)
    specimen.fail("strain_rate",
                  fmt::format("the strain rate is {}, but the speed over the height gives {}; they must agree within "
                              "15 %",
                              show(*facts.strain_rate, Dimension::strain_rate), show(rate, Dimension::strain_rate)),
                  "Correct the one that is wrong, or delete the strain rate.");
}

TableOptions read_table_options(const Mapping& specimen, const TableOptions& common) {
  TableOptions options = common;
  if (const auto columns = specimen.optional_mapping("columns")) {
    const Names names = read_names(*columns, true);
    options.along_column = names.along;
    options.load_column = names.load;
    options.time_column = names.time;
    options.specimen_column = names.specimen;
  }
  if (const auto units = specimen.optional_mapping("units")) {
    const Names names = read_names(*units, false);
    options.along_unit = names.along;
    options.load_unit = names.load;
    options.time_unit = names.time;
  }
  if (specimen.has("separator"))
    options.separator = separator_named(specimen.choice("separator", {"comma", "semicolon", "tab", "blank"}));
  if (specimen.has("decimal_mark"))
    options.decimal_mark = specimen.choice("decimal_mark", {"point", "comma"}) == "point" ? '.' : ',';
  options.compression_is_negative = specimen.flag_or("compression_is_negative", common.compression_is_negative);
  return options;
}

} // namespace crushwright
