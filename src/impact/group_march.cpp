#include "impact/group_march.hpp"

#include "crushwright/errors.hpp"
#include "impact/group_state.hpp"
#include "impact/motion_piece.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

/// A lasting crush below this is rounding [m].
constexpr double no_crush = 1e-9;

/// What is kept of one element along the way.
struct Track {
  std::vector<CrushPiece> pieces;
  double peak_force = 0, stop_force = 0, stop_time = 0;
  double first_crush_time = -1;
  double touch_time = -1, parting_time = -1;
  double work_at_stop = 0;
};

class March {
public:
  March(const Group& group, GroupMotion& result, double closing_speed)
      : state_(group), result_(result), tracks_(state_.elements().size()), speed_(closing_speed) {
    note_touches();
  }

  void run() {
    while (load())
      ;
    result_.peak_closing = closing_;
    result_.stop_time = time_;
    result_.stop_force = state_.force();
    for (std::size_t i = 0; i < tracks_.size(); ++i)
      tracks_[i].work_at_stop = state_.elements()[i].work();
    while (state_.any_line_left())
      let_go();
    result_.separation_time = time_;
    result_.rebound_speed = -speed_;
  }

  const GroupState& state() const { return state_; }
  Track& track(std::size_t element) { return tracks_[element]; }

private:
  /// One step forward. @return false once the bodies stand still.
  bool load() {
    state_.settle_snaps();
    const GroupState::Rates rates = state_.rates(true);
    const GroupState::Event event = state_.next_event(rates, true);
    if (!(event.step > 0)) {
      state_.advance(rates, 0, &event);
      note_touches();
      return true;
    }
    const double force = state_.force(), stiffness = rates.force / rates.closing;
    const LinearResistance resistance{result_.moving_mass, speed_, force, stiffness};
    const double to_event = rates.closing * event.step;
    const double next_squared = std::isfinite(to_event) ? resistance.speed_squared_after(to_event) : -1;
    const bool stops = next_squared <= 0;
    const double distance = stops ? resistance.stopping_distance() : to_event;
    if (!std::isfinite(distance))
      throw OutOfDomain("nothing in the group stops the bodies: a curve ends without a rise");
    const double end_speed = stops ? 0 : std::sqrt(next_squared);
    const double duration = resistance.time_for(distance, end_speed);
    record(rates, {time_, duration, closing_, speed_, force, stiffness});
    state_.advance(rates, distance / rates.closing, stops ? nullptr : &event);
    const double before = time_;
    time_ += duration;
    closing_ += distance;
    speed_ = end_speed;
    note_peaks(before);
    note_touches();
    return !stops;
  }

  /// One step of the elastic return, to the parting of a line.
  void let_go() {
    const GroupState::Rates rates = state_.rates(false);
    const GroupState::Event event = state_.next_event(rates, false);
    const double force = state_.force(), stiffness = rates.force / rates.closing;
    const double distance = rates.closing * event.step;
    const LinearResistance back{result_.moving_mass, -speed_, -force, stiffness};
    const double end_speed = std::sqrt(std::max(0.0, back.speed_squared_after(distance)));
    const double duration = end_speed > 0 ? back.time_for(distance, end_speed) : 0;
    if (duration > 0)
      record(rates, {time_, duration, closing_, speed_, force, stiffness});
    state_.advance(rates, -event.step, &event);
    time_ += duration;
    closing_ -= distance;
    speed_ = -end_speed;
    tracks_[state_.structure_of(event.line)].parting_time = time_;
  }

  void record(const GroupState::Rates& rates, const MotionPiece& piece) {
    result_.pieces.push_back(piece);
    for (std::size_t i = 0; i < tracks_.size(); ++i) {
      const ElementState& element = state_.elements()[i];
      tracks_[i].pieces.push_back(
          {element.crush(), rates.crush[i] / rates.closing, element.force(), rates.slope[i] / rates.closing});
      tracks_[i].peak_force = std::max(tracks_[i].peak_force, element.force());
    }
  }

  void note_peaks(double step_start) {
    for (std::size_t i = 0; i < tracks_.size(); ++i) {
      const ElementState& element = state_.elements()[i];
      Track& track = tracks_[i];
      track.peak_force = std::max(track.peak_force, element.force());
      if (element.crush() >= element.greatest_crush() && element.crush() > 0) {
        track.stop_time = time_;
        track.stop_force = element.force();
      }
      if (track.first_crush_time < 0 && element.lasting_crush() > no_crush)
        track.first_crush_time = step_start;
    }
  }

  void note_touches() {
    for (std::size_t line = 0; line < state_.touched().size(); ++line) {
      Track& track = tracks_[state_.structure_of(line)];
      if (state_.touched()[line] && track.touch_time < 0)
        track.touch_time = time_;
    }
  }

  GroupState state_;
  GroupMotion& result_;
  std::vector<Track> tracks_;
  double time_ = 0, closing_ = 0, speed_ = 0;
};

ColumnMotion column_of(const Line& line, const ElementState& structure, Track& track, const GroupMotion& group) {
  ColumnMotion column;
  column.structure = line.structure;
  column.lateral = line.lateral;
  column.vertical = line.vertical;
  column.touch_time = track.touch_time < 0 ? group.stop_time : track.touch_time;
  column.peak_crush = structure.greatest_crush();
  column.peak_force = track.peak_force;
  column.stop_force = track.stop_force;
  column.stop_time = column.peak_crush > 0 ? track.stop_time : group.stop_time;
  column.residual_crush = structure.crush();
  column.separation_time = track.parting_time < 0 ? group.separation_time : track.parting_time;
  column.input_energy = track.work_at_stop;
  column.absorbed = structure.work();
  column.returned = track.work_at_stop - structure.work();
  column.bottomed = column.peak_crush - structure.rigid_rise() > line.curve->bottoming_crush;
  column.pieces = std::move(track.pieces);
  return column;
}

ElementMotion element_of(const SeriesElement& element, const std::string& structure, const ElementState& state,
                         Track& track) {
  ElementMotion motion;
  motion.id = element.id;
  motion.kind = element.kind;
  motion.structure = structure;
  motion.peak_crush = state.greatest_crush();
  motion.peak_force = track.peak_force;
  motion.lasting_crush = std::abs(state.crush()) > no_crush ? state.crush() : 0;
  motion.first_crush_time = track.first_crush_time;
  // An element that only springs keeps nothing: what its work sums to is rounding.
  motion.absorbed = motion.lasting_crush == 0 ? 0 : state.work();
  motion.returned = track.work_at_stop - motion.absorbed;
  motion.locked = motion.peak_crush - state.rigid_rise() > element.curve->bottoming_crush;
  motion.pieces = std::move(track.pieces);
  return motion;
}

/// The group's share, split by what each structure had to take.
void split_share(double share, std::vector<ColumnMotion>& columns, std::size_t first) {
  double whole = 0;
  for (std::size_t i = first; i < columns.size(); ++i)
    whole += columns[i].input_energy;
  const auto count = static_cast<double>(columns.size() - first);
  for (std::size_t i = first; i < columns.size(); ++i)
    columns[i].share = whole > 0 ? share * columns[i].input_energy / whole : share / count;
}

} // namespace

void append_group_march(const Group& group, std::size_t index, ImpactMotion& motion) {
  GroupMotion& result = motion.groups.emplace_back();
  result.share = group.share;
  result.moving_mass = group.share * motion.effective_mass;
  March march(group, result, motion.closing_speed);
  march.run();
  const std::vector<ElementState>& states = march.state().elements();
  const std::size_t first_column = motion.columns.size();
  std::size_t next = 0;
  const auto add_element = [&](const SeriesElement& element, const std::string& structure) {
    motion.elements.push_back(element_of(element, structure, states[next], march.track(next)));
    motion.elements.back().group = index;
    ++next;
  };
  for (const Line& line : group.lines) {
    for (const SeriesElement& element : line.with)
      add_element(element, line.structure);
    motion.columns.push_back(column_of(line, states[next], march.track(next), result));
    motion.columns.back().group = index;
    ++next;
  }
  for (const SeriesElement& element : group.common)
    add_element(element, "");
  split_share(group.share, motion.columns, first_column);
  motion.ledger.released += march.state().released();
}

} // namespace crushwright
