#include "impact/group_motion.hpp"

#include "impact/group_march.hpp"
#include "impact/motion_piece.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crushwright {
namespace {

/// Marches along the crush curve until the mass stands still.
/// @return the steepest loading slope met [N/m].
double march_to_standstill(const CrushCurve& curve, GroupMotion& group, double closing_speed) {
  double time = 0, crush = 0, speed = closing_speed, steepest = 0;
  std::size_t segment = 0;
  const std::size_t last = curve.crush.size() - 2;
  for (;;) {
    const double stiffness =
        (curve.force[segment + 1] - curve.force[segment]) / (curve.crush[segment + 1] - curve.crush[segment]);
    const double force = curve.force[segment];
    const LinearResistance resistance{group.moving_mass, speed, force, stiffness};
    steepest = std::max(steepest, stiffness);
    const double to_next = curve.crush[segment + 1] - crush;
    const double next_speed_squared = resistance.speed_squared_after(to_next);
    const bool stops = next_speed_squared <= 0 || segment == last;
    const double distance = stops ? resistance.stopping_distance() : to_next;
    const double end_speed = stops ? 0 : std::sqrt(next_speed_squared);
    const double duration = resistance.time_for(distance, end_speed);
    group.pieces.push_back({time, duration, crush, speed, force, stiffness});
    time += duration;
    if (stops) {
      group.peak_closing = crush + distance;
      group.stop_force = force + stiffness * distance;
      group.stop_time = time;
      return steepest;
    }
    ++segment;
    crush = curve.crush[segment];
    speed = end_speed;
  }
}

/// Elastic return along a slope no softer than any met in loading: a softer one would give back more than was stored.
void unload(double stiffness, GroupMotion& group) {
  group.separation_time = group.stop_time;
  if (!(stiffness > 0)) // rigid-plastic: nothing elastic to give back
    return;
  const double duration = 0.5 * std::numbers::pi / std::sqrt(stiffness / group.moving_mass);
  group.pieces.push_back({group.stop_time, duration, group.peak_closing, 0, group.stop_force, stiffness});
  group.separation_time = group.stop_time + duration;
  group.rebound_speed = group.stop_force / std::sqrt(stiffness * group.moving_mass);
}

/// A structure alone in its group crushes as the bodies close.
ColumnMotion lone_column(const Line& line, const GroupMotion& group, double unloading_stiffness) {
  const CrushCurve& curve = *line.curve;
  ColumnMotion column;
  column.structure = line.structure;
  column.lateral = line.lateral;
  column.vertical = line.vertical;
  column.share = group.share;
  column.peak_crush = column.residual_crush = group.peak_closing;
  column.stop_force = column.peak_force = group.stop_force;
  column.stop_time = group.stop_time;
  column.separation_time = group.separation_time;
  column.absorbed = curve.energy_at(group.peak_closing);
  column.pieces.reserve(group.pieces.size());
  for (const MotionPiece& piece : group.pieces) {
    column.pieces.push_back({piece.closing, 1, piece.force, piece.stiffness});
    column.peak_force = std::max(column.peak_force, piece.force);
  }
  if (unloading_stiffness > 0) {
    column.residual_crush = group.peak_closing - group.stop_force / unloading_stiffness;
    column.returned = 0.5 * group.moving_mass * group.rebound_speed * group.rebound_speed;
    column.absorbed -= 0.5 * group.stop_force * group.stop_force / unloading_stiffness;
  }
  column.bottomed = column.peak_crush > curve.bottoming_crush;
  return column;
}

} // namespace

void append_group_motion(const Group& group, std::size_t index, ImpactMotion& motion) {
  if (group.lines.size() != 1 || !group.common.empty() || !group.lines[0].with.empty() ||
      group.lines[0].stagger > 0) {
    append_group_march(group, index, motion);
    return;
  }
  const CrushCurve& curve = *group.lines[0].curve;
  GroupMotion& result = motion.groups.emplace_back();
  result.share = group.share;
  result.moving_mass = group.share * motion.effective_mass;
  result.pieces.reserve(curve.crush.size() + 1);
  const double steepest = march_to_standstill(curve, result, motion.closing_speed);
  const double unloading_stiffness = std::max(curve.elastic_stiffness, steepest);
  unload(unloading_stiffness, result);
  ColumnMotion& column = motion.columns.emplace_back(lone_column(group.lines[0], result, unloading_stiffness));
  column.group = index;
  column.input_energy = 0.5 * result.moving_mass * motion.closing_speed * motion.closing_speed;
}

} // namespace crushwright
