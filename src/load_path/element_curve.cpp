#include "load_path/element_curve.hpp"

#include "crush_curve/curve_points.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <limits>

namespace crushwright {
namespace {

constexpr int imprint_steps = 64; // a cone's energy is then good to 2e-4

/// Ends the curve where it stands: it locks there.
/// @param rest  length over which the slope is laid [m]
void lock(CrushCurve& curve, double rest) {
  const double force = curve.force.back(), slope = lock_slope_factor * force / rest;
  curve.bottoming_crush = curve.crush.back();
  curve.bottoming_force = force;
  append(curve, curve.crush.back() + 3 * force / slope, 4 * force);
}

/// Ends the curve where it stands: it crushes on and on.
void go_on(CrushCurve& curve, double slope) {
  curve.bottoming_crush = std::numeric_limits<double>::infinity();
  curve.bottoming_force = curve.force.back();
  append(curve, curve.crush.back() + 1, curve.force.back() + slope);
}

/// A crushed block is as stiff in unloading as when it is locked.
void lock_block(CrushCurve& curve, const FaceBlock& block) {
  const double rest = (1 - block.lock_up.value) * block.depth.value;
  lock(curve, rest);
  curve.elastic_stiffness = lock_slope_factor * curve.bottoming_force / rest;
}

/// Places at which an imprint is taken: evenly, and where a taper may change.
std::vector<double> imprint_stations(const Envelope& envelope, double stroke) {
  std::vector<double> stations;
  for (int i = 0; i <= imprint_steps; ++i)
    stations.push_back(stroke * i / imprint_steps);
  if (!envelope.surface)
    for (const Section& section : envelope.sections)
      if (section.station < stroke)
        stations.push_back(section.station);
  std::sort(stations.begin(), stations.end());
  const double same = 1e-6 * stroke;
  stations.erase(std::unique(stations.begin(), stations.end(),
                             [same](double first, double second) { return second - first < same; }),
                 stations.end());
  return stations;
}

CrushCurve elastic_plastic(double stiffness, double capacity, double hardening, const std::optional<Quantity>& room) {
  CrushCurve curve;
  double yield_crush = 0;
  if (stiffness > 0) {
    append(curve, 0, 0);
    yield_crush = capacity / stiffness;
    curve.elastic_stiffness = stiffness;
  }
  append(curve, yield_crush, capacity);
  if (!room) {
    go_on(curve, hardening);
    return curve;
  }
  if (!(room->value > yield_crush))
    throw OutOfDomain(fmt::format("it has {} m of room and needs {} m before it crushes", room->value, yield_crush));
  append(curve, room->value, capacity + hardening * (room->value - yield_crush));
  lock(curve, room->value);
  return curve;
}

double end_or_zero(const std::optional<Quantity>& quantity, SeriesEnd end) {
  return quantity ? at_end(*quantity, end) : 0;
}

} // namespace

double at_end(const Quantity& quantity, SeriesEnd end) {
  switch (end) {
  case SeriesEnd::low:
    return quantity.low_end();
  case SeriesEnd::high:
    return quantity.high_end();
  case SeriesEnd::nominal:
    break;
  }
  return quantity.value;
}

CrushCurve imprint_curve(const FaceBlock& block, const Window& window, const StructurePlace& structure,
                         SeriesEnd end) {
  const double pressure = at_end(block.crush_pressure, end), stroke = block.lock_up.value * block.depth.value;
  CrushCurve curve;
  double area = 0; // what has been punched out stays so where the structure draws in again
  for (const double station : imprint_stations(*structure.envelope, stroke)) {
    area = std::max(area, bearing_on(structure, std::min(station, structure.envelope->length()), window).area());
    append(curve, station, pressure * area);
  }
  lock_block(curve, block);
  return curve;
}

CrushCurve plate_curve(const FaceBlock& block, const Window& window, SeriesEnd end) {
  const double force =
      at_end(block.crush_pressure, end) * (window.left - window.right) * (window.top - window.bottom);
  CrushCurve curve;
  append(curve, 0, force);
  append(curve, block.lock_up.value * block.depth.value, force);
  lock_block(curve, block);
  return curve;
}

CrushCurve attachment_curve(const AttachmentInput& attachment, SeriesEnd end) {
  return elastic_plastic(end_or_zero(attachment.stiffness, end), at_end(attachment.capacity, end), 0,
                         attachment.crush_room);
}

CrushCurve rest_of_body_curve(const RestOfBodyInput& rest, SeriesEnd end) {
  return elastic_plastic(at_end(rest.stiffness, end), at_end(rest.capacity, end), end_or_zero(rest.hardening, end),
                         rest.crush_room);
}

} // namespace crushwright
