#include "impact/resolved_march.hpp"

#include <algorithm>
#include <utility>

namespace crushwright {

double ResolvedMarch::momentum() const {
  double sum =
      (striker_held_ ? 0 : striker_mass_ * striker_speed_) + (struck_held_ ? 0 : struck_mass_ * struck_speed_);
  for (const ChainState& state : chains_)
    for (std::size_t i = 0; i < state.mass.size(); ++i)
      sum += state.mass[i] * state.speed[i];
  return sum;
}

/// What moves at the end: striker against all the rest as one, and the rest in itself.
void ResolvedMarch::close_ledger() {
  momentum_residual_ = momentum() - start_momentum_ + held_impulse_;
  double rest_mass = struck_held_ ? 0 : struck_mass_, rest_sum = rest_mass * struck_speed_;
  double energy = 0.5 * rest_mass * struck_speed_ * struck_speed_;
  for (const ChainState& state : chains_) {
    for (std::size_t i = 0; i < state.mass.size(); ++i) {
      rest_mass += state.mass[i];
      rest_sum += state.mass[i] * state.speed[i];
      energy += 0.5 * state.mass[i] * state.speed[i] * state.speed[i];
    }
    double stored = 0;
    for (const CrushLink& link : state.links)
      stored += link.stored();
    ledger_.absorbed += state.work - stored;
    ledger_.released += stored;
  }
  const double rest_speed = struck_held_ ? 0 : rest_sum / rest_mass;
  if (struck_held_)
    rest_mass = 0; // only the nodes move, about the held body
  ledger_.released += energy - (struck_held_ ? 0 : 0.5 * rest_mass * rest_speed * rest_speed);
  const double apart = striker_speed_ - rest_speed;
  const double moving = striker_held_  ? rest_mass
                        : struck_held_ ? striker_mass_
                                       : striker_mass_ * rest_mass / (striker_mass_ + rest_mass);
  ledger_.returned = 0.5 * moving * apart * apart;
  ledger_.residual = ledger_.input - ledger_.absorbed - ledger_.elsewhere - ledger_.released - ledger_.returned;
}

std::vector<ResolvedChain> ResolvedMarch::results() const {
  std::vector<ResolvedChain> results;
  results.reserve(chains_.size());
  for (const ChainState& state : chains_) {
    ResolvedChain result;
    result.structure = state.chain->structure;
    result.peak_crush = state.peak_crush;
    result.inertia_energy = state.lost;
    result.struck_end_force = state.touch_record.signal();
    result.attachment_force = state.attachment_record.signal();
    result.struck_end_peak_force = peak(result.struck_end_force);
    result.attachment_peak_force = peak(result.attachment_force);
    result.crush = state.crush;
    result.crush.resize(result.attachment_force.values.size(), state.crush.back());
    for (std::size_t i = 0; i < state.links.size(); ++i)
      result.final_shortenings.push_back(state.place[i] - state.place[i + 1]);
    result.first_collapse = state.first_collapse;
    std::size_t used = 0;
    while (used < state.half_used.size() && state.half_used[used] >= 0 &&
           (used == 0 || state.half_used[used] >= state.half_used[used - 1]))
      ++used;
    const bool none_behind = std::all_of(state.half_used.begin() + static_cast<std::ptrdiff_t>(used),
                                         state.half_used.end(), [](double time) { return time < 0; });
    result.front_from_struck_end = used >= 2 && none_behind;
    results.push_back(std::move(result));
  }
  return results;
}

} // namespace crushwright
