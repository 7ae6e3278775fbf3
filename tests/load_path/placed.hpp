#pragma once
#include "crushwright/load_path.hpp"
#include "envelope/sections.hpp"

#include <string>
#include <utility>

/// Structures and faces of this room's tests; lengths in metres.
namespace placed {

using namespace crushwright;

inline Envelope between(Section tip, Section root, double length) {
  root.station = length;
  return {{std::move(tip), std::move(root)}, {}};
}

inline Envelope bar(const Section& section, double length = 0.4) {
  return between(section, section, length);
}

inline Quantity value(double si) {
  Quantity quantity;
  quantity.value = si;
  return quantity;
}

inline FaceInput flat(double width, double height, double lower_edge, double lateral = 0, double angle = 0) {
  FaceInput face;
  face.width = value(width);
  face.height = value(height);
  face.lower_edge = value(lower_edge);
  face.lateral = value(lateral);
  face.angle = value(angle);
  return face;
}

inline FaceInput pole(double diameter, double lateral = 0) {
  FaceInput face;
  face.shape = FaceShape::pole;
  face.width = value(diameter);
  face.lateral = value(lateral);
  return face;
}

inline FaceInput wall(double angle = 0) {
  FaceInput face;
  face.shape = FaceShape::wall;
  face.angle = value(angle);
  return face;
}

inline FaceBlock block(const std::string& id, double pressure, double depth, double lock_up,
                       Spread spread = Spread::imprint) {
  FaceBlock made;
  made.id = id;
  made.crush_pressure = value(pressure);
  made.depth = value(depth);
  made.lock_up = value(lock_up);
  made.spread = spread;
  return made;
}

} // namespace placed
