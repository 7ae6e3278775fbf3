#include "crushwright/errors.hpp"
#include "crushwright/load_path.hpp"
#include "load_path/bearing.hpp"
#include "load_path/contact_notes.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace crushwright {
namespace {

void check(const FaceInput& face) {
  if (face.shape != FaceShape::wall && !(face.width.value > 0))
    throw OutOfDomain(
        fmt::format("a {} face is {} m wide; it must be above 0", name_of(face.shape), face.width.value));
  if (!(std::abs(face.angle.value) < steepest_face_angle * (1 + 1e-9)))
    throw OutOfDomain(fmt::format("the face stands at {} rad; it must be within 45 degrees", face.angle.value));
}

/// How far the place y of the front lies behind the foremost place of an upright pole, or behind the middle of a
/// plane.
double set_back(const FaceInput& face, double y) {
  const double beside = y - face.lateral.value;
  if (face.shape != FaceShape::pole)
    return -beside * std::tan(face.angle.value);
  const double radius = face.width.value / 2;
  return radius - std::sqrt(std::max(0.0, (radius - beside) * (radius + beside)));
}

/// Depth of the imprint blocks that stand foremost and that the tip passes by.
double passed_depth(const FaceInput& face, const StructurePlace& structure, std::vector<std::string>& notes) {
  double depth = 0;
  bool foremost = true;
  for (const FaceBlock& block : face.blocks) {
    const bool met = bearing_on(structure, 0, window_of(face, block)).share > 0;
    if (met) {
      foremost = false;
      continue;
    }
    if (block.spread == Spread::plate) {
      foremost = false;
      notes.push_back(
          fmt::format("the block {} does not stand in front of the tip of {}; as a plate it is pushed all "
                      "the same",
                      block.id, structure.id));
      continue;
    }
    if (foremost)
      depth += block.depth.value;
    notes.push_back(
        foremost
            ? fmt::format("the tip of {} passes by the block {}: what stands behind it is met {} later", structure.id,
                          block.id, in_millimetres(block.depth.value))
            : fmt::format("the tip of {} passes by the block {}, whose depth is left out", structure.id, block.id));
  }
  return depth;
}

Contact contact(const FaceInput& face, const StructurePlace& structure) {
  const Window window = window_of(face);
  const Bearing bearing = bearing_on(structure, 0, window);
  Contact found;
  found.structure = structure.id;
  found.struck = bearing.share > 0;
  found.tip_area = bearing.section_area;
  found.bearing_area = bearing.area();
  found.bearing_share = bearing.share;
  found.lateral = bearing.middle[0];
  found.vertical = bearing.middle[1];
  found.tip_lateral = bearing.whole_middle[0];
  found.tip_vertical = bearing.whole_middle[1];
  found.below = std::max(0.0, window.bottom - bearing.extent.bottom);
  found.above = std::max(0.0, bearing.extent.top - window.top);
  found.beside = std::max({0.0, bearing.extent.left - window.left, window.right - bearing.extent.right});
  found.notes = contact_notes(face, structure.id, window, bearing);
  if (found.struck)
    found.stagger = set_back(face, found.lateral) + passed_depth(face, structure, found.notes);
  return found;
}

} // namespace

std::vector<Contact> contacts(const FaceInput& face, const std::vector<StructurePlace>& structures) {
  check(face);
  std::vector<Contact> found;
  found.reserve(structures.size());
  double first = std::numeric_limits<double>::infinity();
  for (const StructurePlace& structure : structures) {
    found.push_back(contact(face, structure));
    if (found.back().struck)
      first = std::min(first, found.back().stagger);
  }
  for (Contact& each : found)
    if (each.struck)
      each.stagger -= first;
  return found;
}

} // namespace crushwright
