#include "impact/group_state.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace crushwright {
namespace {

/// What is called rigid shortens by this much under its first force [m]: nothing that a report shows.
constexpr double rigid_shortening = 1e-9;
constexpr double infinity = std::numeric_limits<double>::infinity();

} // namespace

ElementState::ElementState(const CrushCurve& curve) : curve_(&curve), unloading_slope_(curve.elastic_stiffness) {
  if (curve.force.front() > 0) {
    rigid_rise_ = rigid_shortening;
    unloading_slope_ = std::max(unloading_slope_, curve.force.front() / rigid_shortening);
    return_crush_ = rigid_rise_;
    return_force_ = curve.force.front();
  } else {
    on_curve_ = true;
    meet_slope();
  }
}

double ElementState::curve_slope() const {
  return (curve_->force[segment_ + 1] - curve_->force[segment_]) /
         (curve_->crush[segment_ + 1] - curve_->crush[segment_]);
}

void ElementState::meet_slope() {
  unloading_slope_ = std::max(unloading_slope_, curve_slope());
}

double ElementState::slope(bool shortening) const {
  return on_curve_ && shortening ? curve_slope() : unloading_slope_;
}

double ElementState::room() const {
  if (!on_curve_)
    return return_crush_ - crush_;
  return segment_ + 2 < curve_->crush.size() ? rigid_rise_ + curve_->crush[segment_ + 1] - crush_ : infinity;
}

void ElementState::move(double change, double along_slope) {
  if (change < 0 && on_curve_) {
    on_curve_ = false;
    return_crush_ = crush_;
    return_force_ = force_;
  }
  work_ += change * (force_ + 0.5 * along_slope * change);
  crush_ += change;
  force_ += along_slope * change;
  greatest_crush_ = std::max(greatest_crush_, crush_);
}

void ElementState::arrive() {
  if (!on_curve_) {
    on_curve_ = true;
    crush_ = return_crush_;
    force_ = return_force_;
  } else {
    ++segment_;
    crush_ = rigid_rise_ + curve_->crush[segment_];
    force_ = curve_->force[segment_];
  }
  greatest_crush_ = std::max(greatest_crush_, crush_);
  meet_slope();
}

GroupState::GroupState(const Group& group) {
  for (const Line& line : group.lines) {
    const std::size_t first = elements_.size();
    for (const SeriesElement& element : line.with)
      elements_.emplace_back(*element.curve);
    elements_.emplace_back(*line.curve);
    ranges_.emplace_back(first, elements_.size());
    staggers_.push_back(line.stagger);
    touched_.push_back(line.stagger <= 0);
    parted_.push_back(false);
  }
  common_ = elements_.size();
  for (const SeriesElement& element : group.common)
    elements_.emplace_back(*element.curve);
  rates_.crush.resize(elements_.size());
  rates_.slope.resize(elements_.size());
}

/// Fills the line's rates per shortening of the line. @return false where it would spring back.
bool GroupState::line_tangent(std::size_t line, bool shortening, double& stiffness) {
  const auto [first, last] = ranges_[line];
  std::fill(rates_.crush.begin() + static_cast<std::ptrdiff_t>(first),
            rates_.crush.begin() + static_cast<std::ptrdiff_t>(last), 0.0);
  stiffness = 0;
  if (!touched_[line] || parted_[line])
    return true;
  const bool softens = shortening && elements_[last - 1].softens();
  double compliance = 0;
  for (std::size_t i = first; i < last; ++i) {
    const bool lets_go = !shortening || (softens && i + 1 < last);
    const double slope = elements_[i].slope(!lets_go);
    if (slope == 0) { // it gives way alone, at this force
      for (std::size_t k = first; k < last; ++k)
        rates_.crush[k] = k == i ? 1 : 0;
      return true;
    }
    rates_.crush[i] = 1 / slope;
    compliance += rates_.crush[i];
  }
  for (std::size_t i = first; i < last; ++i)
    rates_.crush[i] /= compliance;
  stiffness = 1 / compliance;
  return !softens || compliance < 0;
}

const GroupState::Rates& GroupState::rates(bool shortening) {
  double stiffness = 0;
  for (std::size_t line = 0; line < ranges_.size(); ++line) {
    double own = 0;
    (void)line_tangent(line, shortening, own);
    for (std::size_t i = ranges_[line].first; i < ranges_[line].second; ++i)
      rates_.slope[i] = own;
    stiffness += own;
  }
  const bool commons_shorten = shortening == (stiffness >= 0);
  rates_.line_shortening = 1;
  rates_.closing = 1;
  rates_.force = stiffness;
  for (std::size_t i = common_; i < elements_.size(); ++i) {
    const double slope = elements_[i].slope(commons_shorten);
    if (slope == 0 && stiffness != 0) { // this one gives way alone
      std::fill(rates_.crush.begin(), rates_.crush.end(), 0.0);
      std::fill(rates_.slope.begin(), rates_.slope.end(), 0.0);
      rates_.crush[i] = 1;
      rates_.line_shortening = rates_.force = 0;
      rates_.closing = 1;
      return rates_;
    }
    rates_.crush[i] = stiffness == 0 ? 0 : stiffness / slope;
    rates_.slope[i] = stiffness;
    rates_.closing += rates_.crush[i];
  }
  return rates_;
}

GroupState::Event GroupState::next_event(const Rates& rates, bool shortening) const {
  Event event{infinity, none, none};
  for (std::size_t i = 0; i < elements_.size(); ++i)
    if (shortening && rates.crush[i] > 0) {
      const double step = std::max(0.0, elements_[i].room()) / rates.crush[i];
      if (step < event.step)
        event = {step, i, none};
    }
  for (std::size_t line = 0; line < ranges_.size(); ++line) {
    double step = infinity;
    if (shortening && !touched_[line] && rates.line_shortening > 0)
      step = std::max(0.0, staggers_[line] - shortening_) / rates.line_shortening;
    if (!shortening && touched_[line] && !parted_[line] && rates.slope[ranges_[line].first] > 0)
      step = elements_[ranges_[line].first].force() / rates.slope[ranges_[line].first];
    if (step < event.step)
      event = {step, none, line};
  }
  return event;
}

void GroupState::advance(const Rates& rates, double step, const Event* event) {
  for (std::size_t i = 0; i < elements_.size(); ++i)
    if (rates.crush[i] != 0)
      elements_[i].move(rates.crush[i] * step, rates.slope[i] / rates.crush[i]);
  shortening_ += rates.line_shortening * step;
  if (event == nullptr)
    return;
  if (event->element != none)
    elements_[event->element].arrive();
  if (event->line != none) {
    if (touched_[event->line])
      parted_[event->line] = true;
    touched_[event->line] = true;
  }
}

double GroupState::force() const {
  double sum = 0;
  for (std::size_t line = 0; line < ranges_.size(); ++line)
    if (touched_[line] && !parted_[line])
      sum += elements_[ranges_[line].first].force();
  return sum;
}

bool GroupState::any_line_left() const {
  for (std::size_t line = 0; line < ranges_.size(); ++line)
    if (touched_[line] && !parted_[line])
      return true;
  return false;
}

double GroupState::total_work() const {
  double sum = 0;
  for (const ElementState& element : elements_)
    sum += element.work();
  return sum;
}

/// The structure shortens on while its neighbours in the line spring back, until the line is as short as it was.
void GroupState::snap_line(std::size_t line) {
  const auto [first, last] = ranges_[line];
  double behind = 0; // how far the line's shortening has gone back
  for (;;) {
    double stiffness = 0;
    const bool stable = line_tangent(line, true, stiffness);
    ElementState& structure = elements_[last - 1];
    // Per shortening of the structure, which always goes on.
    const double own = rates_.crush[last - 1];
    const double per_structure = own != 0 ? 1 / own : 0; // shortening of the line
    if (own == 0) // a neighbour gives way alone: nothing is left to spring back
      break;
    double step = structure.room();
    const bool regains = stable && behind > 0 && per_structure * step >= behind;
    if (stable && behind <= 0)
      break;
    if (regains)
      step = behind / per_structure;
    const double slope = structure.slope(true);
    for (std::size_t i = first; i < last; ++i)
      elements_[i].move(rates_.crush[i] / own * step,
                        i + 1 == last ? slope : elements_[i].slope(stable && !structure.softens()));
    behind -= per_structure * step;
    if (regains)
      break;
    structure.arrive();
  }
}

void GroupState::settle_snaps() {
  const double before = total_work();
  bool snapped = false;
  for (std::size_t line = 0; line < ranges_.size(); ++line) {
    double stiffness = 0;
    if (!line_tangent(line, true, stiffness)) {
      snap_line(line);
      snapped = true;
    }
  }
  if (rates(true).closing <= 0) {
    snapped = true;
    double behind = 0; // how far the bodies would have gone back
    for (;;) {
      const Rates& now = rates(true);
      Event event = next_event(now, true);
      const bool regains = now.closing > 0 && now.closing * event.step >= behind;
      advance(now, regains ? behind / now.closing : event.step, regains ? nullptr : &event);
      if (regains)
        break;
      behind -= now.closing * event.step;
    }
  }
  if (snapped)
    released_ += before - total_work();
}

} // namespace crushwright
