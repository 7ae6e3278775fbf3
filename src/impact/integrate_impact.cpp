#include "crushwright/errors.hpp"
#include "crushwright/impact.hpp"
#include "impact/greatest_total_force.hpp"
#include "impact/motion_piece.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace crushwright {
namespace {

void check(double closing_speed, const std::vector<Column>& columns) {
  if (!(closing_speed > 0) || !std::isfinite(closing_speed))
    throw OutOfDomain(fmt::format("the closing speed is {} m/s; it must be above 0", closing_speed));
  double sum = 0;
  for (const Column& column : columns) {
    if (!(column.share > 0 && column.share <= 1 + 1e-12))
      throw OutOfDomain(
          fmt::format("the share of {} is {}; it must be above 0 and at most 1", column.structure, column.share));
    sum += column.share;
  }
  if (std::abs(sum - 1) > 1e-9)
    throw OutOfDomain(fmt::format("the shares of an impact sum to {}; they must sum to 1", sum));
}

/// Marches along the crush curve until the mass stands still.
/// @return the steepest loading slope met [N/m].
double march_to_standstill(const CrushCurve& curve, ColumnMotion& motion, double closing_speed) {
  double time = 0, crush = 0, speed = closing_speed, steepest = 0;
  std::size_t segment = 0;
  const std::size_t last = curve.crush.size() - 2;
  for (;;) {
    const double stiffness =
        (curve.force[segment + 1] - curve.force[segment]) / (curve.crush[segment + 1] - curve.crush[segment]);
    const double force = curve.force[segment];
    const LinearResistance resistance{motion.moving_mass, speed, force, stiffness};
    steepest = std::max(steepest, stiffness);
    const double to_next = curve.crush[segment + 1] - crush;
    const double next_speed_squared = resistance.speed_squared_after(to_next);
    const bool stops = next_speed_squared <= 0 || segment == last;
    const double distance = stops ? resistance.stopping_distance() : to_next;
    const double end_speed = stops ? 0 : std::sqrt(next_speed_squared);
    const double duration = resistance.time_for(distance, end_speed);
    motion.pieces.push_back({time, duration, crush, speed, force, stiffness});
    time += duration;
    motion.peak_force = std::max({motion.peak_force, force, force + stiffness * distance});
    if (stops) {
      motion.peak_crush = crush + distance;
      motion.stop_force = force + stiffness * distance;
      motion.stop_time = time;
      return steepest;
    }
    ++segment;
    crush = curve.crush[segment];
    speed = end_speed;
  }
}

/// Elastic return along a slope no softer than any met in loading: a softer one would give back more than was stored.
void unload(const CrushCurve& curve, ColumnMotion& motion, double steepest) {
  const double stiffness = std::max(curve.elastic_stiffness, steepest);
  motion.separation_time = motion.stop_time;
  motion.residual_crush = motion.peak_crush;
  motion.absorbed = curve.energy_at(motion.peak_crush);
  if (!(stiffness > 0)) // rigid-plastic: nothing elastic to give back
    return;
  const double wave = std::sqrt(stiffness / motion.moving_mass);
  const double duration = 0.5 * std::numbers::pi / wave;
  motion.pieces.push_back({motion.stop_time, duration, motion.peak_crush, 0, motion.stop_force, stiffness});
  motion.separation_time = motion.stop_time + duration;
  motion.residual_crush = motion.peak_crush - motion.stop_force / stiffness;
  motion.rebound_speed = motion.stop_force / std::sqrt(stiffness * motion.moving_mass);
  motion.returned = 0.5 * motion.moving_mass * motion.rebound_speed * motion.rebound_speed;
  motion.absorbed -= 0.5 * motion.stop_force * motion.stop_force / stiffness;
}

ColumnMotion column_motion(const Column& column, double effective, double closing_speed) {
  const CrushCurve& curve = *column.curve;
  ColumnMotion motion;
  motion.structure = column.structure;
  motion.share = column.share;
  motion.moving_mass = column.share * effective;
  motion.input_energy = 0.5 * motion.moving_mass * closing_speed * closing_speed;
  motion.pieces.reserve(curve.crush.size() + 1);
  unload(curve, motion, march_to_standstill(curve, motion, closing_speed));
  motion.bottomed = motion.peak_crush > curve.bottoming_crush;
  return motion;
}

} // namespace

ImpactMotion integrate_impact(const Body& striker, const Body& struck, double closing_speed,
                              const std::vector<Column>& columns) {
  check(closing_speed, columns);
  ImpactMotion motion;
  motion.striker = striker;
  motion.struck = struck;
  motion.closing_speed = closing_speed;
  motion.effective_mass = effective_mass(striker, struck);
  motion.columns.reserve(columns.size());
  for (std::size_t i = 0; i < columns.size(); ++i) {
    std::size_t twin = 0;
    while (twin < i && (columns[twin].curve != columns[i].curve || columns[twin].share != columns[i].share))
      ++twin;
    if (twin < i) {
      motion.columns.push_back(motion.columns[twin]);
      motion.columns.back().structure = columns[i].structure;
    } else {
      motion.columns.push_back(column_motion(columns[i], motion.effective_mass, closing_speed));
    }
  }
  motion.ledger.input = 0.5 * motion.effective_mass * closing_speed * closing_speed;
  for (const ColumnMotion& column : motion.columns) {
    motion.ledger.absorbed += column.absorbed;
    motion.ledger.returned += column.returned;
  }
  motion.peak_total_force = motion.columns.empty() ? 0 : greatest_total_force(motion);
  motion.ledger.residual = motion.ledger.input - motion.ledger.absorbed - motion.ledger.returned;
  return motion;
}

std::vector<ImpactEvent> events(const ImpactMotion& motion, const std::vector<Column>& columns) {
  std::vector<ImpactEvent> found;
  for (std::size_t i = 0; i < motion.columns.size(); ++i) {
    const ColumnMotion& column = motion.columns[i];
    const CrushCurve& curve = *columns[i].curve;
    found.push_back({0, "contact", column.structure});
    // The weakest layer begins to collapse at the first point after the origin, or at once without a rise.
    const double collapse_crush = curve.force.front() > 0 ? 0 : curve.crush[1];
    if (column.peak_crush > collapse_crush)
      found.push_back({time_at_crush(column, collapse_crush), "first collapse", column.structure});
    if (column.bottomed)
      found.push_back({time_at_crush(column, curve.bottoming_crush), "bottoming", column.structure});
    found.push_back({column.stop_time, "greatest crush", column.structure});
    found.push_back({column.separation_time, "separation", column.structure});
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const ImpactEvent& a, const ImpactEvent& b) { return a.time < b.time; });
  return found;
}

} // namespace crushwright
