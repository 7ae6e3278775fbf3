#include "crushwright/estimate.hpp"
#include "estimate/impact_figures.hpp"
#include "estimate/impact_runs.hpp"
#include "estimate/quick_judgement.hpp"
#include "verdict/measure.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <iterator>
#include <limits>

namespace crushwright {
namespace {

constexpr double more_energy_factor = 1.10;

const CrushCurve& curve_of(const std::vector<SettledStructures>& settled, std::size_t setting,
                           std::size_t structure) {
  return *settled[setting].views[structure].curve;
}

/// The curves to keep for showing; the early densification, the one that decides stroke and force, stands for a side.
StructureCurves structure_curves(const StructureModel& structure, std::size_t index,
                                 const std::vector<SettledStructures>& settled) {
  StructureCurves curves;
  curves.structure = structure.id;
  curves.nominal = curve_of(settled, 0, index);
  curves.weak = curve_of(settled, 1, index);
  curves.strong = curve_of(settled, 3, index);
  curves.stacked_weak = curve_of(settled, 5, index);
  curves.stacked_strong = curve_of(settled, 7, index);
  const double nominal_factor = settled[0].views[index].force_factor;
  curves.weak_factor = settled[1].views[index].force_factor / nominal_factor;
  curves.strong_factor = settled[3].views[index].force_factor / nominal_factor;
  return curves;
}

/// Figures of a structure over the stroke that its tightest impact leaves it.
void add_stroke_figures(const StructureModel& structure, const std::vector<ImpactOutcome>& impacts,
                        StructureCurves& curves) {
  curves.usable_stroke = curves.nominal.bottoming_crush;
  for (const ImpactOutcome& impact : impacts)
    for (const StructureOutcome& outcome : impact.sides[1].structures)
      if (outcome.structure == structure.id)
        curves.usable_stroke = std::min(curves.usable_stroke, outcome.usable_stroke);
  if (!(curves.usable_stroke > 0))
    return;
  const double energy = curves.nominal.energy_at(curves.usable_stroke);
  curves.specific_energy_absorption = energy / structure.mass.total;
  curves.crush_force_efficiency =
      energy / curves.usable_stroke / curves.nominal.peak_force_up_to(curves.usable_stroke);
  curves.stroke_efficiency = curves.usable_stroke / structure.envelope.length();
}

/// Weak, nominal, strong, then the stacked sides: the order that reports use.
std::vector<RunOutcome> in_report_order(std::vector<RunOutcome> outcomes) {
  const auto rank = [](const RunOutcome& outcome) {
    const int side = outcome.side == Side::weak ? 0 : outcome.side == Side::nominal ? 1 : 2;
    return outcome.stacked ? side + 3 : side;
  };
  std::stable_sort(outcomes.begin(), outcomes.end(),
                   [&](const RunOutcome& a, const RunOutcome& b) { return rank(a) < rank(b); });
  return outcomes;
}

MoreEnergy more_energy(const CrashCase& crash_case, const ImpactInput& impact, const ImpactSetup& setup,
                       const std::vector<SettledStructures>& settled) {
  JudgedImpact judged = run_impact(crash_case, impact, setup, settled, more_energy_factor, false);
  MoreEnergy more;
  more.factor = more_energy_factor;
  const Verdict verdict = conclude(std::move(judged.checks));
  more.word = verdict.checks.empty() ? Word::open : verdict.word;
  if (more.word != Word::pass && !verdict.checks.empty())
    more.first_limit_missed = verdict.checks[verdict.governing].limit.id;
  more.nominal = std::move(judged.outcomes.front());
  return more;
}

ImpactOutcome impact_outcome(const ImpactInput& impact, const ImpactSetup& setup, JudgedImpact& judged) {
  ImpactOutcome outcome;
  outcome.id = impact.id;
  outcome.description = impact.description;
  outcome.striker = judged.nominal.striker;
  outcome.struck = judged.nominal.struck;
  outcome.closing_speed = judged.nominal.closing_speed;
  outcome.effective_mass = judged.nominal.effective_mass;
  outcome.available_energy = judged.nominal.ledger.input;
  outcome.shares = impact.shares;
  outcome.face = impact.face;
  outcome.force_angle = impact.force_angle.value;
  outcome.contacts = setup.contacts();
  outcome.notes = setup.notes();
  if (!setup.obstacle().empty())
    outcome.notes.insert(outcome.notes.begin(), impact.id + ": " + setup.obstacle());
  outcome.motion = std::move(judged.nominal);
  outcome.sides = in_report_order(std::move(judged.outcomes));
  return outcome;
}

/// Why one structure's damage is open; empty when it can be had.
std::string why_no_damage(const StructureView& view) {
  if (view.column->fatigue == nullptr)
    return fmt::format("no service load on {} carries `cycles`", *view.id);
  const std::string& missing = view.column->fatigue->missing;
  return missing.empty() ? "" : fmt::format("{}: {}", *view.id, missing);
}

/// Why frequency, service use or fatigue of the structures that a limit looks at cannot be had.
std::string why_no_column_value(const Limit& limit, const std::vector<StructureView>& views) {
  const std::string all = "structures";
  for (const StructureView& view : views) {
    if (limit.of != all && limit.of != *view.id)
      continue;
    if (view.column == nullptr)
      return fmt::format("{} was modelled without the beam that column checks need", *view.id);
    if (limit.quantity == LimitedQuantity::fatigue_damage)
      if (const std::string reason = why_no_damage(view); !reason.empty())
        return reason;
  }
  return limit.of == all ? "no service load acts on any structure"
                         : fmt::format("no service load acts on {}", limit.of);
}

std::string reason_of_absence(const Limit& limit, const std::vector<SettledStructures>& settled) {
  if (is_of_printing(limit.quantity))
    return "the part does not fit the machine in any number of pieces tried";
  switch (limit.quantity) {
  case LimitedQuantity::bending_frequency:
  case LimitedQuantity::service_use:
  case LimitedQuantity::fatigue_damage:
    return why_no_column_value(limit, settled.front().views);
  case LimitedQuantity::clearance:
    return "no structure it looks at has a keep-out";
  case LimitedQuantity::ramp_angle:
    return "no structure it looks at has a flow face";
  default:
    return "no structure it looks at has a lattice with cells";
  }
}

/// Limits that no impact changes have one value on every side.
Check static_check(const Limit& limit, const std::vector<SettledStructures>& settled) {
  const RunView run{nullptr, nullptr, &settled.front().views, nullptr};
  SideValues values;
  values.weak = values.nominal = values.strong = measure(limit, run);
  if (!values.nominal)
    values.reason = reason_of_absence(limit, settled);
  return judge(limit, values, values);
}

/// Checks in the order of the case's limits, whatever impact they belong to.
std::vector<Check> in_case_order(const CrashCase& crash_case, std::vector<Check> checks) {
  const auto place = [&](const Check& check) {
    return std::find_if(crash_case.limits.begin(), crash_case.limits.end(), [&](const Limit& limit) {
      return limit.id == check.limit.id && limit.impact == check.limit.impact;
    });
  };
  std::stable_sort(checks.begin(), checks.end(), [&](const Check& a, const Check& b) { return place(a) < place(b); });
  return checks;
}

std::vector<Check> static_checks(const CrashCase& crash_case, const std::vector<SettledStructures>& settled) {
  std::vector<Check> checks;
  for (const Limit& limit : crash_case.limits)
    if (limit.impact.empty())
      checks.push_back(static_check(limit, settled));
  return checks;
}

constexpr std::size_t nominal_alone = 1, without_stacked = 5;

/// The structures settled for one impact; empty where the common ones serve.
std::vector<SettledStructures> own_settled(const std::vector<StructureModel>& structures, const ScatterSet& scatter,
                                           double level, std::size_t count, const ImpactSetup& setup) {
  if (!setup.needs_own_curves())
    return {};
  return settle(structures, scatter, level, count, &setup);
}

/// What a judged set holds beside its verdict and runs.
struct Beside {
  bool more_energy = true;
  bool figures = false;
};

JudgedSet judged_set(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                     const ScatterSet& scatter, const Beside& beside) {
  const std::vector<SettledStructures> settled = settle(structures, scatter, crash_case.level);
  JudgedSet judged;
  judged.scatter_set = scatter.id;
  std::vector<Check> checks = static_checks(crash_case, settled);
  for (const ImpactInput& impact : crash_case.impacts) {
    const ImpactSetup setup(impact, structures);
    const auto own = own_settled(structures, scatter, crash_case.level, setting_count, setup);
    const auto& used = setup.needs_own_curves() ? own : settled;
    JudgedImpact one = run_impact(crash_case, impact, setup, used, 1, true);
    checks.insert(checks.end(), one.checks.begin(), one.checks.end());
    judged.impacts.push_back(impact_outcome(impact, setup, one));
    if (beside.more_energy)
      judged.impacts.back().more_energy = more_energy(crash_case, impact, setup, used);
    if (beside.figures)
      add_impact_figures(crash_case, impact, structures, setup, used.front(), judged.impacts.back());
  }
  judged.verdict = conclude(in_case_order(crash_case, std::move(checks)));
  for (std::size_t i = 0; i < structures.size(); ++i) {
    judged.curves.push_back(structure_curves(structures[i], i, settled));
    add_stroke_figures(structures[i], judged.impacts, judged.curves.back());
  }
  return judged;
}

} // namespace

JudgedSet judge_case(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                     const ScatterSet& scatter, bool with_more_energy) {
  return judged_set(crash_case, structures, scatter, {with_more_energy, false});
}

JudgedSet judge_with_figures(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                             const ScatterSet& scatter) {
  return judged_set(crash_case, structures, scatter, {true, true});
}

QuickJudgement quick_judgement(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                               const ScatterSet& scatter) {
  const std::vector<SettledStructures> settled = settle(structures, scatter, crash_case.level, without_stacked);
  QuickJudgement quick;
  std::vector<Check> checks = static_checks(crash_case, settled);
  const CrushCurve& first_curve = curve_of(settled, 0, 0);
  double usable_stroke = first_curve.bottoming_crush;
  for (const ImpactInput& impact : crash_case.impacts) {
    const ImpactSetup setup(impact, structures);
    const auto own = own_settled(structures, scatter, crash_case.level, without_stacked, setup);
    JudgedImpact one =
        run_impact(crash_case, impact, setup, setup.needs_own_curves() ? own : settled, 1, false, Outcomes::nominal);
    std::move(one.checks.begin(), one.checks.end(), std::back_inserter(checks));
    for (const StructureOutcome& outcome : one.outcomes.front().structures) {
      quick.peak_force = std::max(quick.peak_force, outcome.peak_force);
      quick.peak_crush = std::max(quick.peak_crush, outcome.peak_crush);
      if (outcome.structure == structures.front().id)
        usable_stroke = std::min(usable_stroke, outcome.usable_stroke);
    }
  }
  if (usable_stroke > 0)
    quick.specific_energy_absorption = first_curve.energy_at(usable_stroke) / structures.front().mass.total;
  quick.verdict = conclude(in_case_order(crash_case, std::move(checks)));
  return quick;
}

double nominal_margin(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                      const ScatterSet& scatter) {
  const std::vector<SettledStructures> settled = settle(structures, scatter, crash_case.level, nominal_alone);
  double least = std::numeric_limits<double>::infinity();
  for (const Check& check : static_checks(crash_case, settled))
    least = std::min(least, check.margin);
  for (const ImpactInput& impact : crash_case.impacts) {
    const ImpactSetup setup(impact, structures);
    const auto own = own_settled(structures, scatter, crash_case.level, nominal_alone, setup);
    const JudgedImpact judged =
        run_impact(crash_case, impact, setup, setup.needs_own_curves() ? own : settled, 1, false, Outcomes::nominal);
    for (const Check& check : judged.checks) {
      SideValues nominal = check.combined;
      nominal.weak = nominal.strong = nominal.nominal;
      least = std::min(least, judge(check.limit, nominal, nominal).margin);
    }
  }
  return least;
}

} // namespace crushwright
