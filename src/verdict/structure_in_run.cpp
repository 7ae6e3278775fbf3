#include "verdict/structure_in_run.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace crushwright {
namespace {

/// The layers' shortenings and the curve's crush agree to rounding where no first peak lies over the curve.
constexpr double same_crush = 1e-9;

} // namespace

LowestForceLimit lowest_force_limit(const RunView& run, const ColumnMotion& column) {
  // Structures crush together until the first of them stops, whatever energy each gets: a limit on their sum is met
  // when each keeps to an even part of it.
  const double even_part = 1.0 / static_cast<double>(run.motion->columns.size());
  const double capacity = structure_of(run, column.structure).attachment_capacity;
  LowestForceLimit lowest{capacity, nullptr, std::isfinite(capacity)};
  for (const Limit& limit : *run.limits) {
    if (limit.impact != *run.impact || !limit.at_most || limit.statistic != Statistic::peak ||
        limit.window.kind != WindowKind::whole)
      continue;
    double force = lowest.force;
    if (limit.quantity == LimitedQuantity::acceleration &&
        (limit.of == run.motion->striker.id || limit.of == run.motion->struck.id))
      force = limit.value.value * body_of(limit, *run.motion).mass * even_part;
    else if (limit.quantity == LimitedQuantity::force && limit.of == column.structure)
      force = limit.value.value;
    else if (limit.quantity == LimitedQuantity::force && is_all(limit))
      force = limit.value.value * even_part;
    if (force < lowest.force)
      lowest = {force, &limit};
  }
  return lowest;
}

double usable_stroke(const RunView& run, const ColumnMotion& column, const StructureView& structure) {
  const LowestForceLimit lowest = lowest_force_limit(run, column);
  const double to_bottoming = structure.curve->bottoming_crush;
  return std::isfinite(lowest.force) ? std::min(to_bottoming, structure.curve->crush_at_force(lowest.force))
                                     : to_bottoming;
}

LayersAtStop layers_at_stop(const StructureView& structure, const ColumnMotion& column) {
  const double crush = column.peak_crush / structure.crush_factor;
  LayersAtStop at{column.stop_force / structure.force_factor, {}};
  const auto crush_at = [&](double force) {
    at.shortenings = layer_shortenings(*structure.layers, force);
    return std::accumulate(at.shortenings.begin(), at.shortenings.end(), 0.0);
  };
  if (crush_at(at.force) <= crush * (1 + same_crush))
    return at;
  double low = 0, high = at.force;
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (low + high);
    (crush_at(middle) > crush ? high : low) = middle;
  }
  (void)crush_at(low);
  at.force = low;
  return at;
}

CrushedStations stations_at_stop(const StructureView& structure, const ColumnMotion& column) {
  std::vector<double> shortenings = layers_at_stop(structure, column).shortenings;
  for (double& shortening : shortenings)
    shortening *= structure.crush_factor;
  return {*structure.layers, shortenings};
}

ColumnLoading column_loading(const RunView& run, const ColumnMotion& column, const StructureView& structure) {
  ColumnLoading loading;
  loading.curve = structure.curve;
  loading.peak_crush = column.peak_crush;
  loading.force_factor = structure.force_factor;
  loading.angle = run.about.force_angle;
  if (run.about.contacts != nullptr)
    for (const Contact& contact : *run.about.contacts)
      if (contact.structure == column.structure) {
        loading.eccentricity = contact.lateral - contact.tip_lateral;
        loading.vertical_eccentricity = contact.vertical - contact.tip_vertical;
      }
  return loading;
}

ColumnUnderForce column_state(const RunView& run, const ColumnMotion& column, const StructureView& structure) {
  return column_under_force(*structure.column->column, *structure.layers, column_loading(run, column, structure),
                            structure.column->bolts);
}

} // namespace crushwright
