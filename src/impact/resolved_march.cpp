#include "impact/resolved_march.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>
#include <utility>

namespace crushwright {

ResolvedMarch::ResolvedMarch(const Body& striker, const Body& struck, double closing_speed,
                             const std::vector<const Chain*>& chains, double share, double steps_per_period,
                             double bound)
    : striker_held_(striker.held), struck_held_(struck.held), striker_mass_(share * striker.mass),
      struck_mass_(share * struck.mass), steps_per_period_(steps_per_period), bound_(bound) {
  striker_speed_ = striker.held ? 0 : closing_speed;
  struck_speed_ = striker.held ? -closing_speed : 0;
  chains_.reserve(chains.size());
  for (const Chain* chain : chains)
    add_chain(*chain, struck_speed_);
  double own = 0;
  for (const ChainState& state : chains_)
    for (const double mass : state.mass)
      own += mass;
  if (!struck.held && !(struck_mass_ > own))
    throw OutOfDomain(fmt::format("the structures weigh {} kg, the part of {} that carries them {} kg: its mass "
                                  "includes theirs and must be above it",
                                  own, struck.id, struck_mass_));
  struck_mass_ -= own;
  ledger_.input = 0.5 * share * effective_mass(striker, struck) * closing_speed * closing_speed;
  start_momentum_ = momentum();
  find_step();
  smallest_step_ = step_;
  find_rates();
  join_tips();
}

void ResolvedMarch::add_chain(const Chain& chain, double start_speed) {
  ChainState state;
  state.chain = &chain;
  const std::size_t count = chain.layers->size();
  state.mass.push_back(chain.tip_mass);
  for (std::size_t i = 0; i < count; ++i) {
    state.links.emplace_back((*chain.layers)[i], chain.force_factor, chain.crush_factor);
    state.mass.back() += 0.5 * chain.layer_masses[i];
    state.mass.push_back(0.5 * chain.layer_masses[i]);
    state.transit += std::sqrt(chain.layer_masses[i] / state.links.back().elastic_stiffness());
  }
  for (std::size_t i = 0; i < count; ++i)
    if (!(state.mass[i] > 0))
      throw OutOfDomain(fmt::format("{}: no mass stands at the outer face of layer {}; a chain of masses needs one "
                                    "between any two layers and at the tip",
                                    chain.structure, i + 1));
  state.place.assign(state.mass.size(), 0.0);
  state.speed.assign(state.mass.size(), start_speed);
  state.rate.assign(state.mass.size(), 0.0);
  state.before.assign(count, 0.0);
  state.first_collapse.assign(count, -1.0);
  state.half_used.assign(count, -1.0);
  state.crush.push_back(0);
  transit_ = std::max(transit_, state.transit);
  chains_.push_back(std::move(state));
}

/// No vibration of a chain is faster than ω² = max 2 (k + k') / m over its masses: row sums bound the greatest
/// eigenvalue.
void ResolvedMarch::find_step() {
  double fastest = 0;
  for (const ChainState& state : chains_) {
    double outer = 0;
    for (std::size_t i = 0; i < state.links.size(); ++i) {
      const double inner = state.links[i].stiffness();
      fastest = std::max(fastest, 2 * (outer + inner) / state.mass[i]);
      outer = inner;
    }
    if (!struck_held_)
      fastest = std::max(fastest, 2 * outer / (struck_mass_ + state.mass.back()));
  }
  step_ = 2 * std::numbers::pi / (steps_per_period_ * std::sqrt(fastest));
  smallest_step_ = std::min(smallest_step_, step_);
}

void ResolvedMarch::find_rates() {
  double on_striker = 0, with_striker = striker_mass_, on_struck = 0, with_struck = struck_mass_;
  for (const ChainState& state : chains_) {
    on_struck += state.links.back().force();
    with_struck += state.mass.back();
    if (state.joined) {
      on_striker -= state.links.front().force();
      with_striker += state.mass.front();
    }
  }
  striker_rate_ = striker_held_ ? 0 : on_striker / with_striker;
  struck_rate_ = struck_held_ ? 0 : on_struck / with_struck;
  for (ChainState& state : chains_) {
    const std::size_t count = state.links.size();
    for (std::size_t i = 1; i < count; ++i)
      state.rate[i] = (state.links[i - 1].force() - state.links[i].force()) / state.mass[i];
    const double tip_force = state.links.front().force();
    state.rate.front() = state.joined ? striker_rate_ : -tip_force / state.mass.front();
    state.rate.back() = struck_rate_;
    state.touch = state.joined ? tip_force + state.mass.front() * striker_rate_ : 0;
    state.attachment = state.links.back().force() - state.mass.back() * struck_rate_;
  }
}

/// Cuts a step where a free tip and the striker meet: first root of gap + v t + a t²/2.
double ResolvedMarch::step_to_touch(double step) const {
  for (const ChainState& state : chains_) {
    if (state.joined)
      continue;
    const double gap = std::max(0.0, state.place.front() + state.chain->stagger - striker_place_);
    const double speed = state.speed.front() - striker_speed_;
    const double rate = state.rate.front() - striker_rate_;
    if (gap + step * (speed + 0.5 * step * rate) >= 0)
      continue;
    const double root = std::sqrt(std::max(0.0, speed * speed - 2 * rate * gap));
    const double meet = speed < 0 ? 2 * gap / (root - speed) : (speed + root) / -rate;
    step = std::min(step, meet);
  }
  return step;
}

void ResolvedMarch::advance(double step) {
  std::vector<std::pair<double, double>> ends_before;
  ends_before.reserve(chains_.size());
  const double half = 0.5 * step;
  striker_place_ += step * (striker_speed_ + half * striker_rate_);
  striker_speed_ += half * striker_rate_;
  bool stiffer = false;
  for (ChainState& state : chains_) {
    ends_before.emplace_back(state.touch, state.attachment);
    const std::size_t count = state.links.size();
    for (std::size_t i = 0; i <= count; ++i) {
      state.place[i] += step * (state.speed[i] + half * state.rate[i]);
    }
    for (std::size_t i = 0; i < count; ++i) {
      CrushLink& link = state.links[i];
      state.before[i] = link.force();
      const double stiffness = link.stiffness();
      link.shorten_to(state.place[i] - state.place[i + 1]);
      stiffer = stiffer || link.stiffness() != stiffness;
      state.work += 0.25 * step * (state.before[i] + link.force()) * (state.speed[i] - state.speed[i + 1]);
    }
    for (std::size_t i = 0; i <= count; ++i)
      state.speed[i] += half * state.rate[i];
  }
  struck_speed_ += half * struck_rate_;
  find_rates();
  striker_speed_ += half * striker_rate_;
  struck_speed_ += half * struck_rate_;
  for (ChainState& state : chains_) {
    const std::size_t count = state.links.size();
    for (std::size_t i = 0; i <= count; ++i)
      state.speed[i] += half * state.rate[i];
    for (std::size_t i = 0; i < count; ++i)
      state.work += 0.25 * step * (state.before[i] + state.links[i].force()) * (state.speed[i] - state.speed[i + 1]);
  }
  record(step, ends_before);
  time_ += step;
  if (stiffer)
    find_step();
}

void ResolvedMarch::record(double step, const std::vector<std::pair<double, double>>& ends_before) {
  const double now = time_ + step;
  for (std::size_t c = 0; c < chains_.size(); ++c) {
    ChainState& state = chains_[c];
    state.touch_record.add(time_, step, ends_before[c].first, state.touch);
    state.attachment_record.add(time_, step, ends_before[c].second, state.attachment);
    if (striker_held_)
      held_impulse_ -= 0.5 * step * (ends_before[c].first + state.touch);
    if (struck_held_)
      held_impulse_ += 0.5 * step * (ends_before[c].second + state.attachment);
    const double crush = state.place.front() - state.place.back();
    state.peak_crush = std::max(state.peak_crush, crush);
    for (double at = 0; (at = static_cast<double>(state.crush.size()) * resolved_sampling_step) <= now;)
      state.crush.push_back(state.last_crush + (at - time_) / step * (crush - state.last_crush));
    state.last_crush = crush;
    for (std::size_t i = 0; i < state.links.size(); ++i) {
      if (state.first_collapse[i] < 0 && state.links[i].collapsed())
        state.first_collapse[i] = now;
      if (state.half_used[i] < 0 && state.links[i].half_used())
        state.half_used[i] = now;
      if (state.links[i].collapsed() && state.links[i].loading())
        plastic_time_ = now;
    }
  }
}

/// Tips that the striker has caught join it perfectly plastically, all at once.
void ResolvedMarch::join_tips() {
  constexpr double touching = 1e-12; // a step that ends at the touch ends there but for rounding [m]
  double mass = striker_mass_, sum = striker_mass_ * striker_speed_;
  std::vector<ChainState*> met;
  for (ChainState& state : chains_) {
    const double gap = state.place.front() + state.chain->stagger - striker_place_;
    if (state.joined) {
      mass += state.mass.front();
      sum += state.mass.front() * striker_speed_;
    } else if (gap <= touching && state.speed.front() < striker_speed_) {
      mass += state.mass.front();
      sum += state.mass.front() * state.speed.front();
      met.push_back(&state);
    }
  }
  if (met.empty())
    return;
  const double common = striker_held_ ? 0 : sum / mass;
  const double old = striker_speed_;
  double lost = 0, weight = 0;
  const double on_striker = striker_held_ ? 0 : 0.5 * striker_mass_ * (old * old - common * common);
  for (ChainState& state : chains_)
    if (state.joined)
      lost += 0.5 * state.mass.front() * (old * old - common * common);
  lost += on_striker;
  for (ChainState* state : met) {
    const double slow = state->speed.front();
    lost += 0.5 * state->mass.front() * (slow * slow - common * common);
    weight += state->mass.front() * (old - slow) * (old - slow);
    if (striker_held_)
      held_impulse_ -= state->mass.front() * (common - slow);
  }
  for (ChainState* state : met) {
    const double difference = old - state->speed.front();
    state->lost += lost * state->mass.front() * difference * difference / weight;
    state->joined = true;
  }
  ledger_.elsewhere += lost;
  striker_speed_ = common;
  for (ChainState& state : chains_)
    if (state.joined)
      state.speed.front() = common;
  find_rates();
}

/// A tip leaves the striker when the contact would have to pull.
void ResolvedMarch::part_tips() {
  for (bool again = true; again;) {
    again = false;
    for (ChainState& state : chains_) {
      if (!state.joined || state.touch >= 0)
        continue;
      state.joined = false;
      parted_time_ = time_;
      again = true;
      find_rates();
      break;
    }
  }
}

bool ResolvedMarch::all_parted() const {
  return std::none_of(chains_.begin(), chains_.end(), [](const ChainState& state) { return state.joined; });
}

void ResolvedMarch::run() {
  // Parted for good: no touch and no crushing while a wave could run through the longest chain ten times.
  const double quiet = 10 * transit_ + 20 * resolved_sampling_step;
  while (time_ < bound_ && !(all_parted() && time_ - std::max(parted_time_, plastic_time_) > quiet)) {
    const double step = step_to_touch(step_);
    advance(step);
    join_tips();
    part_tips();
  }
  close_ledger();
}

} // namespace crushwright
