#include "crushwright/resolved_impact.hpp"

#include "crushwright/errors.hpp"
#include "impact/resolved_march.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr double agreement = 0.05; ///< of crush and class 60 force: the quasi-static curve then is enough

void check(const Chain& chain) {
  if (chain.layers == nullptr || chain.layers->empty())
    throw OutOfDomain(fmt::format("{} has no layers to make a chain of", chain.structure));
  if (chain.layer_masses.size() != chain.layers->size())
    throw OutOfDomain(fmt::format("{} has {} layers but {} layer masses", chain.structure, chain.layers->size(),
                                  chain.layer_masses.size()));
  for (const double mass : chain.layer_masses)
    if (!(mass >= 0) || !std::isfinite(mass))
      throw OutOfDomain(fmt::format("a layer of {} weighs {} kg; it must be 0 or more", chain.structure, mass));
  if (!(chain.tip_mass >= 0) || !std::isfinite(chain.tip_mass))
    throw OutOfDomain(
        fmt::format("the tip of {} weighs {} kg; it must be 0 or more", chain.structure, chain.tip_mass));
  for (const double factor : {chain.force_factor, chain.crush_factor})
    if (!(factor > 0) || !std::isfinite(factor))
      throw OutOfDomain(fmt::format("a factor on {} is {}; it must be above 0", chain.structure, factor));
  if (!(chain.share > 0 && chain.share <= 1))
    throw OutOfDomain(
        fmt::format("the share of {} is {}; it must be above 0 and at most 1", chain.structure, chain.share));
  if (!(chain.stagger >= 0) || !std::isfinite(chain.stagger))
    throw OutOfDomain(fmt::format("the tip of {} stands {} m behind the first; it must be 0 or more", chain.structure,
                                  chain.stagger));
}

bool in_parallel(const std::vector<Chain>& chains) {
  return std::all_of(chains.begin(), chains.end(), [](const Chain& chain) { return chain.share == 1; });
}

void check(double closing_speed, const std::vector<Chain>& chains, double steps_per_period) {
  if (!(closing_speed > 0) || !std::isfinite(closing_speed))
    throw OutOfDomain(fmt::format("the closing speed is {} m/s; it must be above 0", closing_speed));
  if (!(steps_per_period >= 20) || !std::isfinite(steps_per_period))
    throw OutOfDomain(
        fmt::format("{} steps per period of the fastest link; it must be 20 or more", steps_per_period));
  if (chains.empty())
    throw OutOfDomain("an impact with the structures' own inertia needs at least one chain");
  double sum = 0;
  for (const Chain& chain : chains) {
    check(chain);
    sum += chain.share;
  }
  if (!in_parallel(chains) && std::abs(sum - 1) > 1e-9)
    throw OutOfDomain(fmt::format("the shares of the chains sum to {}; they must sum to 1, or all be 1", sum));
}

ImpactMotion quasi_static(const Body& striker, const Body& struck, double closing_speed,
                          const std::vector<Chain>& chains, const std::vector<CrushCurve>& curves) {
  std::vector<Group> groups;
  for (std::size_t i = 0; i < chains.size(); ++i) {
    Line line;
    line.structure = chains[i].structure;
    line.curve = &curves[i];
    line.stagger = chains[i].stagger;
    if (i == 0 || !in_parallel(chains))
      groups.push_back({chains[i].share, {}, {}});
    groups.back().lines.push_back(std::move(line));
  }
  return integrate_impact(striker, struck, closing_speed, groups);
}

/// Both start from rest, before the filter's own rise, and end together.
Signal class_60(const Signal& force, std::size_t count) {
  const auto before = static_cast<std::size_t>(0.02 / force.step);
  Signal signal{force.step, std::vector<double>(count + 2 * before, 0.0)};
  std::copy(force.values.begin(), force.values.end(), signal.values.begin() + static_cast<std::ptrdiff_t>(before));
  return filtered(signal, ChannelClass::class_60);
}

double difference(const Signal& resolved, const Signal& reference) {
  const std::size_t count = std::max(resolved.values.size(), reference.values.size());
  const Signal one = class_60(resolved, count), other = class_60(reference, count);
  double greatest = 0;
  for (std::size_t n = 0; n < one.values.size(); ++n)
    greatest = std::max(greatest, std::abs(one.values[n] - other.values[n]));
  return greatest / peak(other);
}

/// At the latest a run ends here [s]: long after the quasi-static motion, so that only what never ends is cut off.
double bound_on_time(const ImpactMotion& motion) {
  double last = 0;
  for (const GroupMotion& group : motion.groups)
    last = std::max(last, group.separation_time);
  return 3 * last + 0.01;
}

void add(const EnergyLedger& part, EnergyLedger& whole) {
  whole.input += part.input;
  whole.absorbed += part.absorbed;
  whole.elsewhere += part.elsewhere;
  whole.released += part.released;
  whole.returned += part.returned;
  whole.residual += part.residual;
}

void compare(const ImpactMotion& motion, ResolvedImpact& impact) {
  impact.quasi_static_is_enough = true;
  for (std::size_t i = 0; i < impact.chains.size(); ++i) {
    ResolvedChain& chain = impact.chains[i];
    const ColumnMotion& column = motion.columns[i];
    chain.quasi_static_crush = column.peak_crush;
    chain.quasi_static_peak_force = column.peak_force;
    if (!(column.peak_force > 0))
      continue; // a tip that is never reached
    chain.quasi_static_force = force_signal(motion, resolved_sampling_step, &column);
    const double apart = difference(chain.attachment_force, chain.quasi_static_force);
    impact.greatest_difference = std::max(impact.greatest_difference, apart);
    if (apart > agreement || std::abs(chain.peak_crush / column.peak_crush - 1) > agreement)
      impact.quasi_static_is_enough = false;
  }
}

} // namespace

ResolvedImpact resolved_impact(const Body& striker, const Body& struck, double closing_speed,
                               const std::vector<Chain>& chains, double steps_per_period) {
  check(closing_speed, chains, steps_per_period);
  std::vector<CrushCurve> curves;
  curves.reserve(chains.size());
  for (const Chain& chain : chains)
    curves.push_back(scaled(crush_curve(*chain.layers), chain.force_factor, chain.crush_factor));
  const ImpactMotion reference = quasi_static(striker, struck, closing_speed, chains, curves);
  const double bound = bound_on_time(reference);
  ResolvedImpact impact;
  impact.closing_speed = closing_speed;
  std::vector<std::vector<const Chain*>> systems;
  for (std::size_t i = 0; i < chains.size(); ++i) {
    if (i == 0 || !in_parallel(chains))
      systems.emplace_back();
    systems.back().push_back(&chains[i]);
  }
  double momentum = 0;
  for (const auto& system : systems) {
    ResolvedMarch march(striker, struck, closing_speed, system, system.front()->share, steps_per_period, bound);
    march.run();
    for (ResolvedChain& chain : march.results())
      impact.chains.push_back(std::move(chain));
    add(march.ledger(), impact.ledger);
    momentum += march.momentum_residual();
    impact.step = impact.step > 0 ? std::min(impact.step, march.smallest_step()) : march.smallest_step();
  }
  impact.momentum_residual = std::abs(momentum) / ((striker.held ? struck.mass : striker.mass) * closing_speed);
  compare(reference, impact);
  return impact;
}

} // namespace crushwright
