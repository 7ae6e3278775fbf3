#include "crushwright/errors.hpp"
#include "crushwright/impact.hpp"
#include "impact/greatest_total_force.hpp"
#include "impact/motion_piece.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

struct ColumnState {
  double crush;
  double speed;
  double force;
};

/// Walks along one column's pieces with rising time.
class ColumnReader {
public:
  explicit ColumnReader(const ColumnMotion& column) : column_(column) {}

  ColumnState at(double time) {
    if (time >= column_.separation_time) // the bodies part; the structure keeps its residual crush
      return {column_.residual_crush, -column_.rebound_speed, 0};
    const MotionPiece& piece = piece_at(time);
    const double since = time - piece.start;
    const double crush = piece.crush_after(since, column_.moving_mass);
    return {crush, piece.speed_after(since, column_.moving_mass),
            piece.force + piece.stiffness * (crush - piece.crush)};
  }

  double force_at(double time) {
    if (time >= column_.separation_time)
      return 0;
    const MotionPiece& piece = piece_at(time);
    const double further = piece.crush_after(time - piece.start, column_.moving_mass) - piece.crush;
    return piece.force + piece.stiffness * further;
  }

private:
  const MotionPiece& piece_at(double time) {
    while (piece_ + 1 < column_.pieces.size() && column_.pieces[piece_ + 1].start <= time)
      ++piece_;
    return column_.pieces[piece_];
  }

  const ColumnMotion& column_;
  std::size_t piece_ = 0;
};

double end_of_contact(const ImpactMotion& motion) {
  double end = 0;
  for (const ColumnMotion& column : motion.columns)
    end = std::max(end, column.separation_time);
  return end;
}

std::size_t sample_count(const ImpactMotion& motion, double step) {
  if (!(step > 0))
    throw OutOfDomain(fmt::format("the sampling step is {} s; it must be above 0", step));
  return static_cast<std::size_t>(std::ceil(end_of_contact(motion) / step)) + 1;
}

bool all_alike(const ImpactMotion& motion) {
  const ColumnMotion& first = motion.columns.front();
  return std::all_of(motion.columns.begin(), motion.columns.end(), [&](const ColumnMotion& column) {
    return column.share == first.share && column.peak_crush == first.peak_crush &&
           column.peak_force == first.peak_force && column.stop_time == first.stop_time;
  });
}

double magnitude(double force, const Body& body) {
  return body.held ? 0 : force / body.mass;
}

} // namespace

double greatest_total_force(const ImpactMotion& motion) {
  if (all_alike(motion))
    return motion.columns.front().peak_force * static_cast<double>(motion.columns.size());
  std::vector<double> times;
  for (const ColumnMotion& column : motion.columns) {
    const auto merged = static_cast<std::ptrdiff_t>(times.size());
    for (const MotionPiece& piece : column.pieces)
      times.push_back(piece.start);
    std::inplace_merge(times.begin(), times.begin() + merged, times.end());
  }
  std::vector<ColumnReader> readers(motion.columns.begin(), motion.columns.end());
  double peak = 0;
  for (const double time : times) {
    double total = 0;
    for (ColumnReader& reader : readers)
      total += reader.force_at(time);
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
  std::vector<ColumnReader> readers(motion.columns.begin(), motion.columns.end());
  for (std::size_t n = 0; n < count; ++n) {
    const double time = static_cast<double>(n) * step;
    double force = 0, impulse = 0;
    for (std::size_t i = 0; i < readers.size(); ++i) {
      const ColumnState state = readers[i].at(time);
      history.column_crush[i].push_back(state.crush);
      history.column_force[i].push_back(state.force);
      force += state.force;
      impulse += motion.columns[i].moving_mass * (motion.closing_speed - state.speed);
    }
    // The frame in which a held body, or else the struck body, is at rest before the impact.
    const double striker_start = motion.striker.held ? 0 : motion.closing_speed;
    const double struck_start = motion.striker.held ? -motion.closing_speed : 0;
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
  const auto add = [&](const ColumnMotion& each, double times) {
    ColumnReader reader(each);
    for (std::size_t n = 0; n < count; ++n)
      signal.values[n] += times * reader.force_at(static_cast<double>(n) * step);
  };
  if (column != nullptr)
    add(*column, 1);
  else if (all_alike(motion))
    add(motion.columns.front(), static_cast<double>(motion.columns.size()));
  else
    for (const ColumnMotion& each : motion.columns)
      add(each, 1);
  return signal;
}

Signal acceleration_signal(const ImpactMotion& motion, const Body& body, double step) {
  Signal signal = force_signal(motion, step);
  for (double& value : signal.values)
    value = magnitude(value, body);
  return signal;
}

double time_at_crush(const ColumnMotion& column, double crush) {
  if (crush >= column.peak_crush)
    return column.stop_time;
  std::size_t k = 0; // an unloading piece starts at standstill; a rigid-plastic structure has none
  while (k + 1 < column.pieces.size() && column.pieces[k + 1].speed > 0 && column.pieces[k + 1].crush <= crush)
    ++k;
  const MotionPiece& piece = column.pieces[k];
  const LinearResistance resistance{column.moving_mass, piece.speed, piece.force, piece.stiffness};
  const double distance = crush - piece.crush;
  return piece.start +
         resistance.time_for(distance, std::sqrt(std::max(0.0, resistance.speed_squared_after(distance))));
}

double impulse_until(const ImpactMotion& motion, double time) {
  double impulse = 0;
  for (const ColumnMotion& column : motion.columns)
    impulse += column.moving_mass * (motion.closing_speed - ColumnReader(column).at(time).speed);
  return impulse;
}

} // namespace crushwright
