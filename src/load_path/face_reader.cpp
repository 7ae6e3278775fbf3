#include "load_path/face_reader.hpp"

#include "load_path/bearing.hpp"
#include "quantities/units.hpp"
#include "yaml_input/spread.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

/// Where a key has no meaning for the shape.
void refuse(const Mapping& face, std::initializer_list<const char*> keys, const std::string& why) {
  for (const char* key : keys)
    if (face.has(key))
      face.fail(key, why, "Delete the line, or set `shape: flat`.");
}

/// y of the face's middle where a share of a width is overlapped from one side.
Quantity lateral_of_overlap(const Mapping& face, double face_width) {
  Mapping overlap = face.mapping("overlap");
  overlap.allow({"share", "of_width", "side"});
  const double share = without_spread(overlap, "share", Dimension::fraction, {0, 1, true, false}).value;
  const double width = without_spread(overlap, "of_width", Dimension::length, Bounds::positive()).value;
  const double side = overlap.choice("side", {"left", "right"}) == "left" ? 1 : -1;
  if (share * width > face_width * (1 + 1e-9))
    face.fail("overlap",
              fmt::format("the face covers {} of the width as seen along the crush axis, less than the overlap of {}",
                          show(face_width, Dimension::length), show(share * width, Dimension::length)),
              "Make the face wider or the overlap smaller, or place the face with `lateral`.");
  Quantity lateral = nothing(Dimension::length);
  lateral.value = side * (width / 2 - share * width + face_width / 2);
  lateral.path = overlap.path();
  return lateral;
}

void read_lateral(const Mapping& face, FaceInput& input) {
  if (face.has("lateral") && face.has("overlap"))
    face.fail("overlap", "the face is already placed by `lateral`", "Keep one of the two.");
  if (face.has("overlap"))
    input.lateral = lateral_of_overlap(face, input.width.value * std::cos(input.angle.value));
  else if (face.has("lateral"))
    input.lateral = without_spread(face, "lateral", Dimension::length, Bounds::any());
}

void read_angle(const Mapping& face, FaceInput& input) {
  if (face.has("angle"))
    input.angle =
        without_spread(face, "angle", Dimension::angle, Bounds::closed(-steepest_face_angle, steepest_face_angle));
}

void read_flat(const Mapping& face, FaceInput& input) {
  refuse(face, {"diameter"}, "a flat face has a `width` and a `height`, no diameter");
  input.width = without_spread(face, "width", Dimension::length, Bounds::positive());
  input.height = without_spread(face, "height", Dimension::length, Bounds::positive());
  input.lower_edge = without_spread(face, "lower_edge", Dimension::length, Bounds::not_negative());
  read_angle(face, input);
  read_lateral(face, input);
}

void read_pole(const Mapping& face, FaceInput& input) {
  refuse(face, {"width"}, "a pole is round: it has a `diameter`");
  refuse(face, {"height", "lower_edge"}, "a pole is taken to stand from the ground to above every structure");
  refuse(face, {"angle"}, "a pole is round: it has no angle");
  refuse(face, {"overlap"}, "a pole is placed by the y of its axis, `lateral`");
  refuse(face, {"blocks"}, "a pole is taken to be rigid; crushable blocks stand on a flat face");
  input.width = without_spread(face, "diameter", Dimension::length, Bounds::positive());
  read_lateral(face, input);
}

void read_wall(const Mapping& face, FaceInput& input) {
  refuse(face, {"width", "height", "lower_edge", "lateral", "overlap", "diameter"},
         "a wall has no edges: it meets every structure");
  refuse(face, {"blocks"}, "a wall is taken to be rigid; crushable blocks stand on a flat face");
  read_angle(face, input);
}

std::optional<Quantity> own(const Mapping& block, std::string_view key, const Bounds& bounds) {
  return block.has(key) ? std::optional<Quantity>(without_spread(block, key, Dimension::length, bounds))
                        : std::nullopt;
}

void check_inside(const Mapping& mapping, const FaceInput& face, const FaceBlock& block) {
  const Window outer = window_of(face), inner = window_of(face, block);
  constexpr double rounding = 1e-9; // [m]
  const char* aside = mapping.has("lateral") ? "lateral" : "width";
  const auto fail = [&](const char* key, const std::string& what) {
    mapping.fail(mapping.has(key) ? key : "", what, "Make the block smaller, or the face as large as its blocks.");
  };
  if (inner.left > outer.left + rounding)
    fail(aside, fmt::format("the block ends {} beyond the face's left end",
                            show(inner.left - outer.left, Dimension::length)));
  if (inner.right < outer.right - rounding)
    fail(aside, fmt::format("the block ends {} beyond the face's right end",
                            show(outer.right - inner.right, Dimension::length)));
  if (inner.bottom < outer.bottom - rounding)
    fail("lower_edge", fmt::format("the block begins {} below the face's lower edge",
                                   show(outer.bottom - inner.bottom, Dimension::length)));
  if (inner.top > outer.top + rounding)
    fail("height", fmt::format("the block ends {} above the face's upper edge",
                               show(inner.top - outer.top, Dimension::length)));
}

FaceBlock read_block(const std::string& id, Mapping mapping, const FaceInput& face) {
  mapping.allow({"crush_pressure", "depth", "lock_up", "spread", "width", "height", "lower_edge", "lateral"});
  FaceBlock block;
  block.id = id;
  block.crush_pressure = with_ends(mapping, "crush_pressure", Dimension::stress, Bounds::positive());
  block.depth = without_spread(mapping, "depth", Dimension::length, Bounds::positive());
  block.lock_up = without_spread(mapping, "lock_up", Dimension::fraction, Bounds::open(0, 1));
  block.spread =
      mapping.choice_or("spread", {"imprint", "plate"}, "imprint") == "plate" ? Spread::plate : Spread::imprint;
  block.width = own(mapping, "width", Bounds::positive());
  block.height = own(mapping, "height", Bounds::positive());
  block.lower_edge = own(mapping, "lower_edge", Bounds::not_negative());
  block.lateral = own(mapping, "lateral", Bounds::any());
  check_inside(mapping, face, block);
  return block;
}

} // namespace

FaceInput read_face(Mapping face) {
  face.allow({"shape", "width", "height", "lower_edge", "diameter", "lateral", "overlap", "angle", "blocks"});
  FaceInput input;
  input.width = input.height = input.lower_edge = input.lateral = nothing(Dimension::length);
  input.angle = nothing(Dimension::angle);
  const std::string shape = face.choice("shape", {"flat", "pole", "wall"});
  input.shape = shape == "flat" ? FaceShape::flat : shape == "pole" ? FaceShape::pole : FaceShape::wall;
  switch (input.shape) {
  case FaceShape::flat:
    read_flat(face, input);
    break;
  case FaceShape::pole:
    read_pole(face, input);
    break;
  case FaceShape::wall:
    read_wall(face, input);
    break;
  }
  for (const auto& [id, block] : face.entries("blocks"))
    input.blocks.push_back(read_block(id, block, input));
  return input;
}

} // namespace crushwright
