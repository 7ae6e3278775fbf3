#include "envelope/envelope_reader.hpp"

#include "envelope/polygon.hpp"
#include "envelope/section_between.hpp"
#include "envelope/surface_reader.hpp"
#include "quantities/units.hpp"

#include <algorithm>
#include <cstddef>
#include <fmt/format.h>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace crushwright {

namespace {

std::string shown(double length) {
  return show(length, Dimension::length);
}

double plain_length(const Mapping& holder, std::string_view key, const Bounds& bounds) {
  const Quantity read = holder.quantity(key, Dimension::length, bounds);
  if (read.low || read.high || read.coefficient_of_variation)
    holder.fail(key, "this dimension of the outer shape carries a spread, which nothing would use",
                "Give the value alone, or with its source.");
  return read.value;
}

SectionShape shape_named(const std::string& word) {
  if (word == "rounded_rectangle")
    return SectionShape::rounded_rectangle;
  if (word == "trapezoid")
    return SectionShape::trapezoid;
  if (word == "ellipse")
    return SectionShape::ellipse;
  if (word == "polygon")
    return SectionShape::polygon;
  return SectionShape::rectangle;
}

void read_width_and_height(const Mapping& station, Section& section) {
  section.width = plain_length(station, "width", Bounds::positive());
  section.height = plain_length(station, "height", Bounds::positive());
}

void read_corner_radius(const Mapping& station, Section& section) {
  section.corner_radius = plain_length(station, "corner_radius", Bounds::not_negative());
  const double largest = std::min(section.width, section.height) / 2;
  constexpr double rounding = 1e-12; // half of 110 mm and 55 mm may differ in the last digit
  if (section.corner_radius > largest * (1 + rounding))
    station.fail("corner_radius",
                 fmt::format("the corner radius is {}; at most half the smaller side, {}, fits",
                             shown(section.corner_radius), shown(largest)),
                 "Make the radius smaller, or the side larger.");
}

void check_polygon(const Mapping& station, const Polygon& corners) {
  if (corners.size() < 3)
    station.fail("corners", fmt::format("a polygon needs three corners or more; this one has {}", corners.size()),
                 "List the corners as [y, z] pairs, for instance [[0 mm, 0 mm], [90 mm, 0 mm], [45 mm, 80 mm]].");
  if (crosses_itself(corners))
    station.fail("corners", "the outline crosses or touches itself",
                 "List the corners in the order in which a pencil would go once round the section, each once.");
  if (signed_area(corners) < 0)
    station.fail(
        "corners", "the corners go clockwise",
        "List them the other way round: counter-clockwise, seen with y to the right and z up. All stations of a "
        "structure begin at the same corner.");
}

void read_corners(const Mapping& station, Section& section) {
  for (const std::vector<double>& row : station.quantity_rows("corners", 2, Dimension::length))
    section.corners.push_back({row[0], row[1]});
  check_polygon(station, section.corners);
}

void read_centre(const Mapping& station, Section& section) {
  if (!station.has("centre"))
    return;
  const std::vector<Quantity> centre = station.quantity_list("centre", Dimension::length);
  if (centre.size() != 2)
    station.fail("centre", fmt::format("two lengths, [y, z], were expected; there are {}", centre.size()),
                 "Write it for instance as `centre: [0 mm, 12 mm]`.");
  section.centre = {centre[0].value, centre[1].value};
}

Section read_section(Mapping station, SectionShape shape) {
  Section section;
  section.shape = shape;
  switch (shape) {
  case SectionShape::rectangle:
  case SectionShape::ellipse:
    station.allow({"station", "width", "height", "centre"});
    read_width_and_height(station, section);
    break;
  case SectionShape::rounded_rectangle:
    station.allow({"station", "width", "height", "corner_radius", "centre"});
    read_width_and_height(station, section);
    read_corner_radius(station, section);
    break;
  case SectionShape::trapezoid:
    station.allow({"station", "lower_width", "upper_width", "height", "centre"});
    section.width = plain_length(station, "lower_width", Bounds::positive());
    section.upper_width = plain_length(station, "upper_width", Bounds::positive());
    section.height = plain_length(station, "height", Bounds::positive());
    break;
  case SectionShape::polygon:
    station.allow({"station", "corners", "centre"});
    read_corners(station, section);
    break;
  case SectionShape::sliced: // no word names it
    break;
  }
  section.station = plain_length(station, "station", Bounds::not_negative());
  read_centre(station, section);
  return section;
}

/// Corners move on straight lines from one station to the next, and two good outlines can have a crossed one between.
void check_outlines_between(const Mapping& station, const Section& nearer, const Section& farther) {
  constexpr int parts = 8;
  for (int i = 1; i < parts; ++i) {
    const Section between = section_between(nearer, farther, static_cast<double>(i) / parts);
    if (crosses_itself(between.corners) || !(signed_area(between.corners) > 0))
      station.fail(
          "corners",
          fmt::format("between the station before and this one, at {}, the outline crosses itself or turns over",
                      shown(between.station)),
          "Begin the lists of all stations at the same corner, or add a station between.");
  }
}

void check_follows(const Mapping& station, const Section& nearer, const Section& farther) {
  if (!(farther.station > nearer.station))
    station.fail("station",
                 fmt::format("stations must rise, but {} follows {}", shown(farther.station), shown(nearer.station)),
                 "List the stations from the struck end to the attachment, each once.");
  if (farther.shape != SectionShape::polygon)
    return;
  if (nearer.corners.size() != farther.corners.size())
    station.fail(
        "corners",
        fmt::format("this polygon has {} corners, the one before it {}", farther.corners.size(),
                    nearer.corners.size()),
        "Give all stations of a structure the same number of corners; a corner on a straight edge may fill up.");
  check_outlines_between(station, nearer, farther);
}

std::vector<Section> read_sections(Mapping sections) {
  sections.allow({"shape", "stations"});
  const SectionShape shape =
      shape_named(sections.choice("shape", {"rectangle", "rounded_rectangle", "trapezoid", "ellipse", "polygon"}));
  const std::vector<Mapping> stations = sections.list("stations");
  if (stations.size() < 2)
    sections.fail("stations", fmt::format("two stations or more are needed; there are {}", stations.size()),
                  "Give the section at the struck end, station 0 mm, and the one at the attachment.");
  std::vector<Section> read;
  for (const Mapping& station : stations) {
    read.push_back(read_section(station, shape));
    if (read.size() == 1 && read.front().station != 0)
      station.fail(
          "station",
          fmt::format("the first station must be 0 mm, the struck end; it is {}", shown(read.front().station)),
          "Measure the stations from the struck end.");
    if (read.size() > 1)
      check_follows(station, read[read.size() - 2], read.back());
  }
  return read;
}

struct ReadPart {
  Part part;
  Mapping mapping;
};

void check_part(const Mapping& holder, const ReadPart& read, double length) {
  if (!(read.part.from < read.part.to))
    read.mapping.fail("to",
                      fmt::format("the part ends at {}, which is not past its start at {}", shown(read.part.to),
                                  shown(read.part.from)),
                      "Give `from` the end nearer to the struck face and `to` the other.");
  if (read.part.to > length)
    read.mapping.fail(
        "to",
        fmt::format("the part ends at {}, past the end of the structure at {}", shown(read.part.to), shown(length)),
        holder.has("surface") ? "End the part at or before the end of the surface."
                              : "End the part at or before the last station of `sections`.");
}

std::vector<Part> read_parts(const Mapping& structure, double length) {
  std::vector<ReadPart> read;
  for (auto& [id, given] : structure.entries("parts")) {
    Mapping mapping = given;
    mapping.allow({"from", "to"});
    const Part part{id, plain_length(mapping, "from", Bounds::not_negative()),
                    plain_length(mapping, "to", Bounds::positive())};
    read.push_back({part, mapping});
    check_part(structure, read.back(), length);
  }
  std::stable_sort(read.begin(), read.end(),
                   [](const ReadPart& p, const ReadPart& q) { return p.part.from < q.part.from; });
  std::vector<Part> parts;
  for (const ReadPart& next : read) {
    if (!parts.empty() && next.part.from < parts.back().to)
      next.mapping.fail("from",
                        fmt::format("this part starts at {}, inside the part `{}`, which ends at {}",
                                    shown(next.part.from), parts.back().id, shown(parts.back().to)),
                        "Let each part start where the one before it ends, or later.");
    parts.push_back(next.part);
  }
  return parts;
}

/// The outer shape without its parts.
Envelope read_shape(const Mapping& structure, int layer_count) {
  const bool typed = structure.has("sections"), given = structure.has("surface");
  if (typed && given)
    structure.fail("surface", "the outer shape is already given by `sections`", "Keep one of the two.");
  if (given)
    return read_surface_envelope(structure.mapping("surface"), layer_count);
  if (!typed)
    structure.fail("", "the structure has no outer shape",
                   "Add `sections:`, or `surface:` with a closed surface from CAD.");
  Envelope envelope;
  envelope.sections = read_sections(structure.mapping("sections"));
  return envelope;
}

} // namespace

Envelope read_envelope(const Mapping& structure, int layer_count) {
  Envelope envelope = read_shape(structure, layer_count);
  envelope.parts = read_parts(structure, envelope.length());
  return envelope;
}

} // namespace crushwright
