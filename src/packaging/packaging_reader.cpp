#include "packaging/packaging_reader.hpp"

#include "envelope/surface_reader.hpp"
#include "quantities/units.hpp"
#include "yaml_input/spread.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fmt/format.h>
#include <numbers>
#include <utility>

namespace crushwright {

const double usual_ramp_limit = 11 * std::numbers::pi / 180;

namespace {

using Place = std::array<double, 3>;

constexpr double usual_ramp_part = 0.1; ///< of the length

std::vector<FlowFace> read_faces(const Mapping& packaging) {
  const std::vector<FlowFace> known = {FlowFace::lower, FlowFace::upper, FlowFace::inner, FlowFace::outer};
  std::vector<FlowFace> faces;
  for (const std::string& word : packaging.text_list("flow_faces")) {
    const auto face = std::find_if(known.begin(), known.end(), [&](FlowFace each) { return name_of(each) == word; });
    if (face == known.end())
      packaging.fail("flow_faces", fmt::format("`{}` is no face of a structure", word),
                     "Write one or more of: lower, upper, inner, outer.");
    if (std::find(faces.begin(), faces.end(), *face) != faces.end())
      packaging.fail("flow_faces", fmt::format("`{}` is named twice", word), "Name each face once.");
    faces.push_back(*face);
  }
  return faces;
}

/// Sign of the y that points away from the car's middle; 0 for a body that straddles it.
double outer_side(const Envelope& envelope, double lateral) {
  const CentroidLine line = centroid_line(envelope);
  double mean = lateral;
  for (const auto& place : line.at)
    mean += place[0] / static_cast<double>(line.at.size());
  constexpr double on_the_middle = 1e-6; // [m]
  return std::abs(mean) < on_the_middle ? 0 : mean > 0 ? 1 : -1;
}

Place read_place(const Mapping& box, std::string_view key) {
  const std::vector<Quantity> listed = box.quantity_list(key, Dimension::length);
  if (listed.size() != 3)
    box.fail(key, fmt::format("three lengths, [station, y, z], were expected; there are {}", listed.size()),
             "Write it for instance as `[200 mm, -150 mm, -40 mm]`, in the structure's own frame.");
  return {listed[0].value, listed[1].value, listed[2].value};
}

TriangleMesh read_box(const Mapping& keep_out) {
  const Place low = read_place(keep_out, "from"), high = read_place(keep_out, "to");
  for (std::size_t axis = 0; axis < 3; ++axis)
    if (!(low[axis] < high[axis])) {
      const std::array<const char*, 3> names{"station", "y", "z"};
      keep_out.fail("to",
                    fmt::format("the box ends at {} {}, which is not past its start at {}", names[axis],
                                show(high[axis], Dimension::length), show(low[axis], Dimension::length)),
                    "Give `from` the smaller value of each of the three and `to` the larger.");
    }
  return box_surface(low, high);
}

void read_region(const Mapping& keep_out, const Envelope& envelope, KeepOut& read) {
  const bool box = keep_out.has("from") || keep_out.has("to"), surface = keep_out.has("surface");
  if (box == surface)
    keep_out.fail(box ? "surface" : "", box ? "the region is already given by a box" : "the region has no extent",
                  box ? "Keep one of the two."
                      : "Add a box, `from: [...]` and `to: [...]`, or `surface: {file: ..., unit: ...}`.");
  if (box) {
    read.surface = read_box(keep_out);
    return;
  }
  Mapping given = keep_out.mapping("surface");
  given.allow({"file", "unit"});
  SurfaceInput input = read_surface(given);
  read.surface = placed(std::move(input.mesh), envelope.file_axes);
  read.file = std::make_shared<const GeometryFile>(std::move(input.file));
}

KeepOut read_keep_out(const std::string& id, Mapping keep_out, const Envelope& envelope) {
  keep_out.allow({"from", "to", "surface", "clearance", "clearance_after"});
  KeepOut read;
  read.id = id;
  read_region(keep_out, envelope, read);
  const auto clearance = [&](std::string_view key) {
    return without_spread(keep_out, key, Dimension::length, Bounds::not_negative()).value;
  };
  read.clearance = clearance("clearance");
  read.clearance_after = keep_out.has("clearance_after") ? clearance("clearance_after") : read.clearance;
  return read;
}

void read_ramps(const Mapping& packaging, const Envelope& envelope, double lateral, PackagingInput& input) {
  input.flow_faces = read_faces(packaging);
  const double side = outer_side(envelope, lateral);
  const bool sided = std::any_of(input.flow_faces.begin(), input.flow_faces.end(),
                                 [](FlowFace face) { return face == FlowFace::inner || face == FlowFace::outer; });
  if (sided && side == 0)
    packaging.fail("flow_faces", "the structure lies in the middle of the car, so that no side is its outer one",
                   "Place it with `at: {y: ...}`, or name only `lower` and `upper`.");
  input.outer_side = side == 0 ? 1 : side;
  input.ramp_limit = usual_ramp_limit;
  input.ramp_length = usual_ramp_part * envelope.length();
  for (const char* key : {"ramp_limit", "ramp_length"})
    if (packaging.has(key) && input.flow_faces.empty())
      packaging.fail(key, "no face is named that it would hold for", "Add for instance `flow_faces: [lower]`.");
  if (packaging.has("ramp_limit"))
    input.ramp_limit =
        without_spread(packaging, "ramp_limit", Dimension::angle, Bounds::open(0, std::numbers::pi / 2)).value;
  if (packaging.has("ramp_length"))
    input.ramp_length = without_spread(packaging, "ramp_length", Dimension::length, Bounds::positive()).value;
  if (input.ramp_length > envelope.length())
    packaging.fail("ramp_length",
                   fmt::format("the ramp is looked at over {}, more than the structure's {}",
                               show(input.ramp_length, Dimension::length),
                               show(envelope.length(), Dimension::length)),
                   "Write a part of the length, for instance a tenth.");
}

} // namespace

PackagingInput read_packaging(Mapping packaging, const Envelope& envelope, double lateral) {
  packaging.allow({"flow_faces", "ramp_limit", "ramp_length", "keep_out"});
  PackagingInput input;
  read_ramps(packaging, envelope, lateral, input);
  for (const auto& [id, keep_out] : packaging.entries("keep_out"))
    input.keep_outs.push_back(read_keep_out(id, keep_out, envelope));
  return input;
}

TriangleMesh box_surface(const Place& low, const Place& high) {
  TriangleMesh box;
  for (int corner = 0; corner < 8; ++corner)
    box.points.push_back({(corner & 1) != 0 ? high[0] : low[0], (corner & 2) != 0 ? high[1] : low[1],
                          (corner & 4) != 0 ? high[2] : low[2]});
  box.triangles = {{0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}, {0, 1, 5}, {0, 5, 4},
                   {2, 6, 7}, {2, 7, 3}, {0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}};
  return box;
}

} // namespace crushwright
