#include "estimate/impact_runs.hpp"

#include "estimate/rate_curve.hpp"
#include "verdict/force_statistic.hpp"
#include "verdict/measure.hpp"
#include "verdict/pulse_statistic.hpp"
#include "verdict/structure_in_run.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

/// Masses and speed of one run.
struct Approach {
  Body striker;
  Body struck;
  double speed;
};

enum class MassEnd { low, nominal, high };

Body body(const BodyInput& input, MassEnd end) {
  if (input.held)
    return {input.id, 0, true};
  const double mass = end == MassEnd::low    ? input.mass.low_end()
                      : end == MassEnd::high ? input.mass.high_end()
                                             : input.mass.value;
  return {input.id, mass, false};
}

/// Limits that less energy can worsen: what must be reached, a mean, which a first peak raises for a short crush, and
/// what is held for a time inside a window of crush or energy, in which a slow body stays longer.
bool less_may_be_worse(const CrashCase& crash_case, const ImpactInput& impact) {
  return std::any_of(crash_case.limits.begin(), crash_case.limits.end(), [&](const Limit& limit) {
    const bool of_signal =
        limit.quantity == LimitedQuantity::acceleration || limit.quantity == LimitedQuantity::force;
    const bool mean =
        limit.statistic == Statistic::mean_over_time || limit.statistic == Statistic::mean_over_distance;
    const bool held_in_window = needs_time(limit.statistic) && limit.window.kind != WindowKind::whole;
    const bool grows =
        of_signal || limit.quantity == LimitedQuantity::crush || limit.quantity == LimitedQuantity::energy;
    return limit.impact == impact.id && ((of_signal && (mean || held_in_window)) || (grows && !limit.at_most));
  });
}

/// Both ends of everything that has two.
std::vector<Approach> every_end(const ImpactInput& impact, double faster) {
  const auto ends = [](const Quantity& quantity) {
    return quantity.low ? std::vector<MassEnd>{MassEnd::high, MassEnd::low} : std::vector<MassEnd>{MassEnd::high};
  };
  std::vector<double> speeds{impact.closing_speed.high_end() * faster};
  if (impact.closing_speed.low)
    speeds.push_back(impact.closing_speed.low_end() * faster);
  std::vector<Approach> found;
  for (const double speed : speeds)
    for (const MassEnd striker : ends(impact.striker.mass))
      for (const MassEnd struck : ends(impact.struck.mass))
        found.push_back({body(impact.striker, striker), body(impact.struck, struck), speed});
  return found;
}

/// A light body is accelerated more by the same force, so where a limit looks at a body's acceleration or change of
/// speed its low mass is run as well; for most else the high masses and speed, the most energy, are the worse end.
bool acceleration_is_limited(const CrashCase& crash_case, const ImpactInput& impact, const BodyInput& body) {
  return body.mass.low && std::any_of(crash_case.limits.begin(), crash_case.limits.end(), [&](const Limit& limit) {
           return limit.impact == impact.id && limit.of == body.id &&
                  (limit.quantity == LimitedQuantity::acceleration ||
                   limit.quantity == LimitedQuantity::speed_change);
         });
}

std::vector<Approach> approaches(const CrashCase& crash_case, const ImpactInput& impact, Side side,
                                 double energy_factor) {
  const double faster = std::sqrt(energy_factor);
  if (side == Side::nominal)
    return {{body(impact.striker, MassEnd::nominal), body(impact.struck, MassEnd::nominal),
             impact.closing_speed.value * faster}};
  if (less_may_be_worse(crash_case, impact))
    return every_end(impact, faster);
  const double speed = impact.closing_speed.high_end() * faster;
  // The light bodies first: their accelerations are usually the worst, and then the rest need not be sampled.
  std::vector<Approach> found;
  if (acceleration_is_limited(crash_case, impact, impact.striker))
    found.push_back({body(impact.striker, MassEnd::low), body(impact.struck, MassEnd::high), speed});
  if (acceleration_is_limited(crash_case, impact, impact.struck))
    found.push_back({body(impact.striker, MassEnd::high), body(impact.struck, MassEnd::low), speed});
  found.push_back({body(impact.striker, MassEnd::high), body(impact.struck, MassEnd::high), speed});
  return found;
}

std::vector<Group> groups(const ImpactSetup& setup, const SettledStructures& settled) {
  std::vector<const CrushCurve*> curves;
  curves.reserve(settled.views.size());
  for (const StructureView& view : settled.views)
    curves.push_back(view.curve);
  return setup.groups(curves, settled.setting.side);
}

/// Station of the first layer, from the struck end, that is at or past its efficiency strain; negative without one.
double first_lock_station(const StructureView& view, const ColumnMotion& column) {
  const auto first_locked = [&](const std::vector<double>& shortenings) -> double {
    for (std::size_t i = 0; i < shortenings.size(); ++i) {
      const Layer& layer = (*view.layers)[i];
      if (shortenings[i] >= layer.height * layer.efficiency_strain)
        return layer.station;
    }
    return -1;
  };
  // The force of the stop is an upper bound: where it locks no layer, none needs a closer look.
  if (first_locked(layer_shortenings(*view.layers, column.stop_force / view.force_factor)) < 0)
    return -1;
  return first_locked(layers_at_stop(view, column).shortenings);
}

StructureOutcome structure_outcome(const RunView& run, const ColumnMotion& column) {
  const StructureView& view = structure_of(run, column.structure);
  const LowestForceLimit lowest = lowest_force_limit(run, column);
  StructureOutcome outcome;
  outcome.structure = column.structure;
  outcome.peak_crush = column.peak_crush;
  outcome.peak_force = column.peak_force;
  outcome.usable_stroke = usable_stroke(run, column, view);
  outcome.stroke_used = column.peak_crush / outcome.usable_stroke;
  outcome.stroke_left = outcome.usable_stroke - column.peak_crush;
  outcome.energy = view.curve->energy_at(column.peak_crush);
  outcome.reserve = view.curve->energy_at(outcome.usable_stroke) / column.input_energy - 1;
  outcome.bottoming_crush = view.curve->bottoming_crush;
  outcome.bottomed = column.bottomed;
  const bool force_ends = lowest.limit != nullptr && outcome.usable_stroke < view.curve->bottoming_crush;
  const bool attachment_ends =
      lowest.of_attachment && lowest.limit == nullptr && outcome.usable_stroke < view.curve->bottoming_crush;
  outcome.what_ends_stroke = force_ends        ? "limit " + lowest.limit->id
                             : attachment_ends ? "capacity of the attachment"
                                               : "bottoming";
  for (const ElementMotion& element : run.motion->elements)
    if (element.kind == ElementKind::attachment && element.structure == column.structure)
      outcome.attachment_crush = element.lasting_crush;
  outcome.first_lock_station = first_lock_station(view, column);
  return outcome;
}

RunOutcome run_outcome(const RunView& run, const SideSetting& setting, Outcomes outcomes) {
  const ImpactMotion& motion = *run.motion;
  RunOutcome outcome;
  outcome.side = setting.side;
  outcome.stacked = setting.stacked;
  for (const ColumnMotion& column : motion.columns) {
    outcome.structures.push_back(structure_outcome(run, column));
    const StructureView& view = structure_of(run, column.structure);
    if (view.packaging != nullptr && outcomes == Outcomes::every_side)
      outcome.structures.back().clearances = view.packaging->clearances_after(stations_at_stop(view, column));
  }
  outcome.peak_total_force = motion.peak_total_force;
  outcome.striker_peak_acceleration = motion.striker.held ? 0 : outcome.peak_total_force / motion.striker.mass;
  outcome.struck_peak_acceleration = motion.struck.held ? 0 : outcome.peak_total_force / motion.struck.mass;
  for (const ColumnMotion& column : motion.columns)
    outcome.stop_time = std::max(outcome.stop_time, column.stop_time);
  outcome.struck_speed_change = speed_change(motion, motion.struck);
  if (setting.side == Side::nominal)
    for (const ElementMotion& element : motion.elements) {
      outcome.elements.push_back(element);
      outcome.elements.back().pieces.clear();
    }
  return outcome;
}

void keep_worse(StructureOutcome& kept, const StructureOutcome& other) {
  kept.peak_crush = std::max(kept.peak_crush, other.peak_crush);
  kept.peak_force = std::max(kept.peak_force, other.peak_force);
  kept.energy = std::max(kept.energy, other.energy);
  kept.reserve = std::min(kept.reserve, other.reserve);
  kept.stroke_left = std::min(kept.stroke_left, other.stroke_left);
  if (other.stroke_used > kept.stroke_used) {
    kept.stroke_used = other.stroke_used;
    kept.usable_stroke = other.usable_stroke;
    kept.bottoming_crush = other.bottoming_crush;
    kept.what_ends_stroke = other.what_ends_stroke;
    kept.first_lock_station = other.first_lock_station;
  }
  kept.bottomed = kept.bottomed || other.bottomed;
  kept.attachment_crush = std::max(kept.attachment_crush, other.attachment_crush);
  for (std::size_t i = 0; i < other.clearances.size(); ++i) {
    const bool struck = kept.clearances[i].struck || other.clearances[i].struck;
    if (other.clearances[i].value < kept.clearances[i].value)
      kept.clearances[i] = other.clearances[i];
    kept.clearances[i].struck = struck;
  }
}

void keep_worse(std::vector<RunOutcome>& outcomes, RunOutcome outcome) {
  const auto kept = std::find_if(outcomes.begin(), outcomes.end(), [&](const RunOutcome& each) {
    return each.side == outcome.side && each.stacked == outcome.stacked;
  });
  if (kept == outcomes.end()) {
    outcomes.push_back(std::move(outcome));
    return;
  }
  for (std::size_t i = 0; i < outcome.structures.size(); ++i)
    keep_worse(kept->structures[i], outcome.structures[i]);
  kept->peak_total_force = std::max(kept->peak_total_force, outcome.peak_total_force);
  kept->striker_peak_acceleration = std::max(kept->striker_peak_acceleration, outcome.striker_peak_acceleration);
  kept->struck_peak_acceleration = std::max(kept->struck_peak_acceleration, outcome.struck_peak_acceleration);
  kept->struck_speed_change = std::max(kept->struck_speed_change, outcome.struck_speed_change);
  kept->stop_time = std::max(kept->stop_time, outcome.stop_time);
}

/// One limit's values as the runs bring them.
struct LimitValues {
  const Limit* limit;
  SideValues combined;
  SideValues stacked;
};

void keep_worse(const Limit& limit, std::optional<double>& kept, const std::optional<double>& value, bool first) {
  if (first || !value)
    kept = value;
  else if (kept)
    kept = limit.at_most ? std::max(*kept, *value) : std::min(*kept, *value);
}

bool bottoms(const Limit& limit, const ImpactMotion& motion) {
  const std::string structure = limit.of.substr(0, limit.of.find('.'));
  const bool one = std::any_of(motion.columns.begin(), motion.columns.end(),
                               [&](const ColumnMotion& column) { return column.structure == structure; });
  return std::any_of(motion.columns.begin(), motion.columns.end(), [&](const ColumnMotion& column) {
    return column.bottomed && (!one || column.structure == structure);
  });
}

/// A run whose value cannot pass the worst so far need not be sampled.
bool cannot_be_worse(const LimitValues& values, const RunView& run, const std::optional<double>& kept, bool first) {
  return !first && kept && values.limit->at_most && greatest_possible(*values.limit, run) <= *kept;
}

void keep_worse(LimitValues& values, const RunView& run, const SideSetting& setting, bool first) {
  SideValues& sides = setting.stacked ? values.stacked : values.combined;
  const bool bottomed = bottoms(*values.limit, *run.motion);
  if (setting.side == Side::weak)
    sides.weak_bottomed = sides.weak_bottomed || bottomed;
  if (setting.side == Side::strong)
    sides.strong_bottomed = sides.strong_bottomed || bottomed;
  const std::optional<double>& kept = setting.side == Side::weak ? sides.weak : sides.strong;
  if (setting.side != Side::nominal && cannot_be_worse(values, run, kept, first))
    return;
  const std::optional<double> value = measure(*values.limit, run);
  switch (setting.side) {
  case Side::weak:
    keep_worse(*values.limit, sides.weak, value, first);
    break;
  case Side::nominal:
    values.combined.nominal = values.stacked.nominal = value;
    values.combined.nominal_bottomed = values.stacked.nominal_bottomed = bottomed;
    break;
  case Side::strong:
    keep_worse(*values.limit, sides.strong, value, first);
    break;
  }
}

/// A structure's curve on one side, as the impact makes it.
CrushCurve curve_on_side(const StructureModel& structure, std::size_t index, const SideFactors& factors, Side side,
                         const ImpactSetup* setup, double& force_factor) {
  force_factor = factors.force * (setup == nullptr ? 1 : setup->force_factor(index, side));
  if (setup == nullptr || !structure.has_rate_law)
    return scaled(structure.curve, force_factor, factors.crush);
  const RatePurpose purpose = side == Side::strong ? RatePurpose::peak : RatePurpose::energy;
  return scaled(curve_at_speed(structure, setup->speed(), setup->moving_mass(index), purpose), force_factor,
                factors.crush);
}

StructureView view_of(const StructureModel& structure, const CrushCurve* curve, double force_factor,
                      double crush_factor) {
  StructureView view;
  view.id = &structure.id;
  view.layers = &structure.layers;
  view.envelope = &structure.envelope;
  view.curve = curve;
  view.force_factor = force_factor;
  view.crush_factor = crush_factor;
  view.mass = structure.mass.total;
  view.smallest_wall = structure.smallest_wall;
  view.cells_across = structure.cells_across;
  view.packaging = structure.packaging.get();
  view.printing = structure.printing ? &*structure.printing : nullptr;
  return view;
}

ColumnFigures column_figures(const StructureModel& structure) {
  return {&structure.column, structure.bolts ? &*structure.bolts : nullptr, structure.bending_frequency,
          &structure.service, structure.fatigue ? &*structure.fatigue : nullptr};
}

/// A mirrored structure crushes like its original, unless an impact meets the two differently; null then.
const StructureView* twin_of(const std::vector<StructureModel>& structures, const SettledStructures& settled,
                             const ImpactSetup* setup) {
  const std::size_t index = settled.views.size();
  const Side side = settled.setting.side;
  const auto alike = [&](std::size_t i) {
    return setup == nullptr || (setup->force_factor(i, side) == setup->force_factor(index, side) &&
                                setup->moving_mass(i) == setup->moving_mass(index));
  };
  for (std::size_t i = 0; i < index; ++i)
    if (structures[i].id == structures[index].mirror_of && alike(i))
      return &settled.views[i];
  return nullptr;
}

SettledStructures settle_one(const std::vector<StructureModel>& structures, const ScatterSet& scatter, double level,
                             const SideSetting& setting, const ImpactSetup* setup) {
  SettledStructures one;
  one.setting = setting;
  one.curves.reserve(structures.size());
  one.columns.reserve(structures.size());
  for (std::size_t i = 0; i < structures.size(); ++i) {
    const StructureModel& structure = structures[i];
    const SideFactors factors = side_factors(structure, scatter, level, setting);
    const StructureView* twin = twin_of(structures, one, setup);
    double force_factor = twin == nullptr ? factors.force : twin->force_factor;
    const CrushCurve* curve = twin == nullptr ? nullptr : twin->curve;
    if (curve == nullptr)
      curve = &one.curves.emplace_back(curve_on_side(structure, i, factors, setting.side, setup, force_factor));
    one.views.push_back(view_of(structure, curve, force_factor, factors.crush));
    if (setup != nullptr)
      one.views.back().attachment_capacity = setup->attachment_capacity(i, setting.side);
    if (!structure.column.sections.empty()) {
      one.columns.push_back(column_figures(structure));
      one.views.back().column = &one.columns.back();
    }
  }
  return one;
}

/// A limit's values where no number of the impact could be trusted: a miss cannot hold, the rest stays open.
JudgedImpact without_runs(const CrashCase& crash_case, const ImpactInput& impact, const ImpactSetup& setup) {
  JudgedImpact judged;
  const Approach approach = approaches(crash_case, impact, Side::nominal, 1).front();
  judged.nominal.striker = approach.striker;
  judged.nominal.struck = approach.struck;
  judged.nominal.closing_speed = approach.speed;
  judged.nominal.effective_mass = effective_mass(approach.striker, approach.struck);
  judged.nominal.ledger.input = available_energy(approach.striker, approach.struck, approach.speed);
  for (const Limit& limit : crash_case.limits) {
    if (limit.impact != impact.id)
      continue;
    SideValues values;
    values.missed = setup.nothing_is_struck();
    values.reason = setup.obstacle();
    judged.checks.push_back(judge(limit, values, values));
  }
  for (const SideSetting& setting : side_settings())
    if (setting.densification != Densification::late) {
      judged.outcomes.emplace_back();
      judged.outcomes.back().side = setting.side;
      judged.outcomes.back().stacked = setting.stacked;
    }
  return judged;
}

/// Why a limit's value is missing in an impact that ran.
std::string reason_of_absence(const Limit& limit) {
  switch (limit.quantity) {
  case LimitedQuantity::bearing_share:
    return "the impact has no face";
  case LimitedQuantity::bolt_use:
    return "no bolts are stated for its attachment";
  case LimitedQuantity::reserve:
  case LimitedQuantity::clearance_after_crush:
  case LimitedQuantity::stability_reserve:
  case LimitedQuantity::critical_angle:
    return "the structure is not struck in this impact";
  default:
    return "";
  }
}

} // namespace

std::vector<SettledStructures> settle(const std::vector<StructureModel>& structures, const ScatterSet& scatter,
                                      double level, std::size_t count, const ImpactSetup* setup) {
  std::vector<SettledStructures> settled;
  settled.reserve(count);
  for (std::size_t n = 0; n < count; ++n)
    settled.push_back(settle_one(structures, scatter, level, side_settings()[n], setup));
  return settled;
}

JudgedImpact run_impact(const CrashCase& crash_case, const ImpactInput& impact, const ImpactSetup& setup,
                        const std::vector<SettledStructures>& settled, double energy_factor, bool with_stacked,
                        Outcomes outcomes) {
  if (!setup.obstacle().empty())
    return without_runs(crash_case, impact, setup);
  JudgedImpact judged;
  std::vector<LimitValues> values;
  for (const Limit& limit : crash_case.limits)
    if (limit.impact == impact.id)
      values.push_back({&limit, {}, {}});
  for (const SettledStructures& each : settled) {
    if (each.setting.stacked && !with_stacked)
      continue;
    const std::vector<Group> lines = groups(setup, each);
    const ImpactView about{setup.force_angle(each.setting.side),
                           setup.contacts().empty() ? nullptr : &setup.contacts(), impact.striker.lateral,
                           impact.struck.lateral};
    bool first = each.setting.densification != Densification::late;
    for (const Approach& approach : approaches(crash_case, impact, each.setting.side, energy_factor)) {
      ImpactMotion motion = integrate_impact(approach.striker, approach.struck, approach.speed, lines);
      std::optional<Signal> total_force;
      const RunView run{&impact.id, &motion, &each.views, &crash_case.limits, &total_force, about};
      for (LimitValues& limit_values : values)
        keep_worse(limit_values, run, each.setting, first);
      if (outcomes == Outcomes::every_side || each.setting.side == Side::nominal)
        keep_worse(judged.outcomes, run_outcome(run, each.setting, outcomes));
      first = false;
      if (each.setting.side == Side::nominal)
        judged.nominal = std::move(motion);
    }
  }
  for (LimitValues& each : values) {
    if (!each.combined.nominal)
      each.combined.reason = each.stacked.reason = reason_of_absence(*each.limit);
    judged.checks.push_back(judge(*each.limit, each.combined, each.stacked));
  }
  return judged;
}

} // namespace crushwright
