#include "crushwright/errors.hpp"
#include "crushwright/impact.hpp"
#include "impact/greatest_total_force.hpp"
#include "impact/group_reader.hpp"
#include "impact/motion_piece.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

double end_of_contact(const ImpactMotion& motion) {
  double end = 0;
  for (const GroupMotion& group : motion.groups)
    end = std::max(end, group.separation_time);
  return end;
}

std::size_t sample_count(const ImpactMotion& motion, double step) {
  if (!(step > 0))
    throw OutOfDomain(fmt::format("the sampling step is {} s; it must be above 0", step));
  return static_cast<std::size_t>(std::ceil(end_of_contact(motion) / step)) + 1;
}

/// Groups that move as the first: then their forces peak together.
bool all_alike(const ImpactMotion& motion) {
  const GroupMotion& first = motion.groups.front();
  return std::all_of(motion.groups.begin(), motion.groups.end(), [&](const GroupMotion& group) {
    return group.share == first.share && group.peak_closing == first.peak_closing &&
           group.stop_force == first.stop_force && group.stop_time == first.stop_time;
  });
}

/// A group's force is linear in its closing within a piece, so it peaks at the end of one.
double greatest_force(const GroupMotion& group) {
  double peak = group.stop_force;
  for (std::size_t k = 0; k < group.pieces.size(); ++k) {
    const MotionPiece& piece = group.pieces[k];
    peak = std::max(peak, piece.force);
    if (k + 1 < group.pieces.size()) // a force that lets go at once is highest just before
      peak = std::max(peak, piece.force + piece.stiffness * (group.pieces[k + 1].closing - piece.closing));
  }
  return peak;
}

double magnitude(double force, const Body& body) {
  return body.held ? 0 : force / body.mass;
}

} // namespace

double greatest_total_force(const ImpactMotion& motion) {
  if (all_alike(motion))
    return greatest_force(motion.groups.front()) * static_cast<double>(motion.groups.size());
  std::vector<double> times;
  for (const GroupMotion& group : motion.groups) {
    const auto merged = static_cast<std::ptrdiff_t>(times.size());
    for (const MotionPiece& piece : group.pieces)
      times.push_back(piece.start);
    std::inplace_merge(times.begin(), times.begin() + merged, times.end());
  }
  std::vector<GroupReader> readers(motion.groups.begin(), motion.groups.end());
  double peak = 0;
  for (const double time : times) {
    double total = 0;
    for (GroupReader& reader : readers) {
      reader.go_to(time);
      total += reader.force();
    }
    peak = std::max(peak, total);
  }
  return peak;
}

ImpactHistory sample(const ImpactMotion& motion, double step) {
  const std::size_t count = sample_count(motion, step);
  ImpactHistory history;
  history.step = step;
  history.column_crush.resize(motion.columns.size());
  history.column_force.resize(motion.columns.size());
  history.element_crush.resize(motion.elements.size());
  history.element_force.resize(motion.elements.size());
  std::vector<GroupReader> readers(motion.groups.begin(), motion.groups.end());
  // The frame in which a held body, or else the struck body, is at rest before the impact.
  const double striker_start = motion.striker.held ? 0 : motion.closing_speed;
  const double struck_start = motion.striker.held ? -motion.closing_speed : 0;
  for (std::size_t n = 0; n < count; ++n) {
    const double time = static_cast<double>(n) * step;
    double force = 0, impulse = 0;
    for (std::size_t g = 0; g < readers.size(); ++g) {
      readers[g].go_to(time);
      force += readers[g].force();
      impulse += motion.groups[g].moving_mass * (motion.closing_speed - readers[g].speed());
    }
    for (std::size_t i = 0; i < motion.columns.size(); ++i) {
      const ColumnMotion& column = motion.columns[i];
      history.column_crush[i].push_back(readers[column.group].crush_of(column.pieces, column.residual_crush));
      history.column_force[i].push_back(readers[column.group].force_of(column.pieces));
    }
    for (std::size_t i = 0; i < motion.elements.size(); ++i) {
      const ElementMotion& element = motion.elements[i];
      history.element_crush[i].push_back(readers[element.group].crush_of(element.pieces, element.lasting_crush));
      history.element_force[i].push_back(readers[element.group].force_of(element.pieces));
    }
    history.time.push_back(time);
    history.force.push_back(force);
    history.striker_speed.push_back(motion.striker.held ? 0 : striker_start - impulse / motion.striker.mass);
    history.struck_speed.push_back(motion.struck.held ? 0 : struck_start + impulse / motion.struck.mass);
    history.striker_acceleration.push_back(magnitude(force, motion.striker));
    history.struck_acceleration.push_back(magnitude(force, motion.struck));
  }
  return history;
}

Signal force_signal(const ImpactMotion& motion, double step, const ColumnMotion* column) {
  const std::size_t count = sample_count(motion, step);
  Signal signal{step, std::vector<double>(count, 0.0)};
  const auto add = [&](const GroupMotion& group, auto force) {
    GroupReader reader(group);
    for (std::size_t n = 0; n < count; ++n) {
      reader.go_to(static_cast<double>(n) * step);
      signal.values[n] += force(reader);
    }
  };
  if (column != nullptr) {
    add(motion.groups[column->group], [&](const GroupReader& reader) { return reader.force_of(column->pieces); });
  } else if (all_alike(motion)) {
    const auto times = static_cast<double>(motion.groups.size());
    add(motion.groups.front(), [&](const GroupReader& reader) { return times * reader.force(); });
  } else {
    for (const GroupMotion& group : motion.groups)
      add(group, [](const GroupReader& reader) { return reader.force(); });
  }
  return signal;
}

Signal acceleration_signal(const ImpactMotion& motion, const Body& body, double step) {
  Signal signal = force_signal(motion, step);
  for (double& value : signal.values)
    value = magnitude(value, body);
  return signal;
}

double time_at_crush(const ImpactMotion& motion, const ColumnMotion& column, double crush) {
  if (crush >= column.peak_crush)
    return column.stop_time;
  const GroupMotion& group = motion.groups[column.group];
  std::size_t k = 0; // an unloading piece starts at the greatest crush; a rigid-plastic structure has none
  while (k + 1 < column.pieces.size() && group.pieces[k + 1].start < column.stop_time &&
         column.pieces[k + 1].crush <= crush)
    ++k;
  const MotionPiece& piece = group.pieces[k];
  if (!(column.pieces[k].rate > 0))
    return piece.start;
  const LinearResistance resistance{group.moving_mass, piece.speed, piece.force, piece.stiffness};
  const double distance = (crush - column.pieces[k].crush) / column.pieces[k].rate;
  return piece.start +
         resistance.time_for(distance, std::sqrt(std::max(0.0, resistance.speed_squared_after(distance))));
}

double impulse_until(const ImpactMotion& motion, double time) {
  double impulse = 0;
  for (const GroupMotion& group : motion.groups) {
    GroupReader reader(group);
    reader.go_to(time);
    impulse += group.moving_mass * (motion.closing_speed - reader.speed());
  }
  return impulse;
}

double speed_change(const ImpactMotion& motion, const Body& body) {
  return body.held ? 0 : impulse_until(motion, end_of_contact(motion)) / body.mass;
}

} // namespace crushwright
