#include "study/family_search.hpp"

#include "crushwright/errors.hpp"
#include "estimate/quick_judgement.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace crushwright {
namespace {

constexpr int scan_points = 36;
constexpr int bisections = 16;

/// Absent where a structure has none.
std::optional<double> sum_over(const std::vector<StructureModel>& models,
                               std::optional<double> PrintFigures::*member) {
  double sum = 0;
  for (const StructureModel& each : models) {
    if (!each.printing || !((*each.printing).*member))
      return std::nullopt;
    sum += *((*each.printing).*member);
  }
  return sum;
}

void fill_figures(const CrashCase& crash_case, const std::vector<StructureModel>& models,
                  const QuickJudgement& judged, Candidate& candidate) {
  const StructureModel& model = models.front();
  candidate.relative_density = model.middle_relative_density;
  candidate.skin_thickness = model.skin_thickness;
  if (const auto& lattice = crash_case.structures.front().lattice) {
    candidate.size_tip = lattice->size_tip.value;
    candidate.size_root = lattice->size_root.value;
  }
  for (const StructureModel& each : models)
    candidate.mass += each.mass.total;
  candidate.build_time = sum_over(models, &PrintFigures::time);
  candidate.build_cost = sum_over(models, &PrintFigures::cost);
  candidate.peak_force = judged.peak_force;
  candidate.peak_crush = judged.peak_crush;
  candidate.specific_energy_absorption = judged.specific_energy_absorption;
  candidate.word = judged.verdict.word;
  candidate.feasible = judged.verdict.word == Word::pass;
  if (!judged.verdict.checks.empty()) {
    const Check& governing = judged.verdict.checks[judged.verdict.governing];
    candidate.governing_limit = governing.limit.impact.empty()
                                    ? governing.limit.id
                                    : fmt::format("{} ({})", governing.limit.id, governing.limit.impact);
    candidate.governing_margin = governing.margin;
  }
}

double worst_margin(const Verdict& verdict) {
  double worst = std::numeric_limits<double>::infinity();
  for (const Check& check : verdict.checks)
    worst = std::min(worst, check.margin);
  return worst;
}

/// One design on its way: built, and not judged yet. Without models it cannot be built, and the remark says why.
struct Trial {
  double number;
  CrashCase crash_case;
  std::vector<StructureModel> models;
  std::string remark;

  const ScatterSet& scatter() const { return crash_case.scatter_sets[crash_case.deciding_set]; }
};

/// Runs an action that may find a design impossible; the fault becomes the trial's remark.
template <class Action>
void unless_impossible(std::string& remark, const Action& action) {
  try {
    action();
  } catch (const InputError& fault) {
    const std::string message = fault.what();
    remark = message.substr(0, message.find('\n'));
  } catch (const OutOfDomain& fault) {
    remark = fault.what();
  }
}

Trial built(const DesignFamily& family, const Catalogue& catalogue, double number) {
  Trial trial{number, {}, {}, {}};
  unless_impossible(trial.remark, [&] {
    trial.crash_case = family.design(number);
    trial.models = bare_structure_models(trial.crash_case, catalogue);
  });
  return trial;
}

JudgedDesign judged(const DesignFamily& family, Trial& trial) {
  JudgedDesign judged;
  judged.number = trial.number;
  Candidate& candidate = judged.candidate;
  candidate.label = family.label;
  candidate.cell = family.cell;
  candidate.material = family.material;
  candidate.cell_edge = family.cell_edge;
  judged.worst_margin = -std::numeric_limits<double>::max();
  if (trial.remark.empty())
    unless_impossible(trial.remark, [&] {
      const QuickJudgement quick = quick_judgement(trial.crash_case, trial.models, trial.scatter());
      fill_figures(trial.crash_case, trial.models, quick, candidate);
      judged.worst_margin = worst_margin(quick.verdict);
    });
  candidate.remark = trial.remark;
  judged.objective = objective_of(candidate, family.objective);
  return judged;
}

/// What the worst margin of a design cannot exceed: its margin at nominal.
double bound_of(Trial& trial) {
  double bound = -std::numeric_limits<double>::max();
  if (trial.remark.empty())
    unless_impossible(trial.remark, [&] { bound = nominal_margin(trial.crash_case, trial.models, trial.scatter()); });
  return bound;
}

/// Better in the search: passing before not passing; then less of the objective, or missing by less.
bool better(const JudgedDesign& a, const JudgedDesign& b) {
  if (a.candidate.feasible != b.candidate.feasible)
    return a.candidate.feasible;
  return a.candidate.feasible ? a.objective < b.objective : a.worst_margin > b.worst_margin;
}

void keep_better(FamilySearch& search, JudgedDesign design) {
  if (better(design, search.best))
    search.best = std::move(design);
}

std::vector<double> scan_numbers(const DesignFamily& family) {
  std::vector<double> numbers;
  for (int i = 0; i < scan_points; ++i)
    numbers.push_back(family.low * std::pow(family.high / family.low, i / (scan_points - 1.0)));
  return numbers;
}

/// Bisection between a number that does not pass and one that does.
void refine_edge(const DesignFamily& family, const Catalogue& catalogue, double failing, double passing,
                 FamilySearch& search) {
  for (int i = 0; i < bisections; ++i) {
    JudgedDesign design = judge_design(family, catalogue, 0.5 * (failing + passing));
    (design.candidate.feasible ? passing : failing) = design.number;
    if (!design.candidate.feasible)
      search.missed_below = design.candidate.governing_limit;
    keep_better(search, std::move(design));
  }
}

/// Puts the number that passes on the next whole step, if the design still passes there.
void take_whole_step(const DesignFamily& family, const Catalogue& catalogue, FamilySearch& search) {
  JudgedDesign design = judge_design(family, catalogue, up_to_step(search.best.number, family.step));
  if (design.candidate.feasible)
    search.best = std::move(design);
}

/// Golden-section search for the least miss between two neighbours of the best scanned number.
void refine_miss(const DesignFamily& family, const Catalogue& catalogue, double low, double high,
                 FamilySearch& search) {
  constexpr double golden = 0.6180339887498949;
  const auto judge = [&](double number) {
    const JudgedDesign design = judge_design(family, catalogue, number);
    keep_better(search, design);
    return design;
  };
  JudgedDesign first = judge(high - golden * (high - low)), second = judge(low + golden * (high - low));
  for (int i = 1; i < bisections; ++i) {
    if (first.worst_margin > second.worst_margin) {
      high = second.number;
      second = std::move(first);
      first = judge(high - golden * (high - low));
    } else {
      low = first.number;
      first = std::move(second);
      second = judge(low + golden * (high - low));
    }
  }
}

/// After the scan: `first` is the place of the first number that passes, or past the end.
void refine(const DesignFamily& family, const Catalogue& catalogue, const std::vector<double>& numbers,
            std::size_t first, FamilySearch& search) {
  if (first < numbers.size()) {
    if (first > 0)
      refine_edge(family, catalogue, numbers[first - 1], numbers[first], search);
    return;
  }
  const auto at =
      static_cast<std::size_t>(std::find(numbers.begin(), numbers.end(), search.best.number) - numbers.begin());
  if (at < numbers.size())
    refine_miss(family, catalogue, numbers[at > 0 ? at - 1 : 0], numbers[std::min(at + 1, numbers.size() - 1)],
                search);
}

/// The family's answer when nothing can be tried.
FamilySearch nothing_tried(const DesignFamily& family) {
  FamilySearch search;
  search.best.worst_margin = -std::numeric_limits<double>::infinity();
  search.best.candidate.label = family.label;
  if (!(family.high > family.low))
    search.best.candidate.remark = "no size in the stated range fits this cell's own range";
  return search;
}

} // namespace

double objective_of(const Candidate& candidate, Objective objective) {
  constexpr double unknown = std::numeric_limits<double>::infinity();
  switch (objective) {
  case Objective::mass:
    return candidate.mass;
  case Objective::build_time:
    return candidate.build_time.value_or(unknown);
  case Objective::build_cost:
    return candidate.build_cost.value_or(unknown);
  }
  return candidate.mass;
}

bool misses_by_less(const Candidate& a, const Candidate& b) {
  if (a.remark.empty() != b.remark.empty())
    return a.remark.empty();
  return a.governing_margin > b.governing_margin;
}

JudgedDesign judge_design(const DesignFamily& family, const Catalogue& catalogue, double number) {
  Trial trial = built(family, catalogue, number);
  return judged(family, trial);
}

FamilySearch scan_and_refine(const DesignFamily& family, const Catalogue& catalogue) {
  FamilySearch search = nothing_tried(family);
  if (!(family.high > family.low))
    return search;
  const std::vector<double> numbers = scan_numbers(family);
  std::size_t first = numbers.size();
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    JudgedDesign design = judge_design(family, catalogue, numbers[i]);
    if (design.candidate.feasible)
      first = std::min(first, i);
    search.scanned.push_back(design.candidate);
    keep_better(search, std::move(design));
  }
  if (first > 0 && first < numbers.size())
    search.missed_below = search.scanned[first - 1].governing_limit;
  refine(family, catalogue, numbers, first, search);
  if (search.best.candidate.feasible)
    take_whole_step(family, catalogue, search);
  return search;
}

namespace {

/// A search on its way: scanned from the light end to the first that passes.
struct UpwardScan {
  struct PutOff {
    Trial trial;
    double bound; ///< what its worst margin cannot exceed
  };
  FamilySearch search;
  std::vector<double> numbers; ///< empty when nothing can be tried
  std::size_t first = 0;       ///< place of the first that passes, or past the end
  std::vector<PutOff> put_off; ///< miss at nominal already, so that they were not judged on their sides
  bool passes() const { return first < numbers.size(); }
};

UpwardScan scan_upwards(const DesignFamily& family, const Catalogue& catalogue) {
  UpwardScan scan;
  scan.search = nothing_tried(family);
  if (!(family.high > family.low))
    return scan;
  scan.numbers = scan_numbers(family);
  scan.first = scan.numbers.size();
  for (std::size_t i = 0; i < scan.numbers.size() && !scan.passes(); ++i) {
    Trial trial = built(family, catalogue, scan.numbers[i]);
    const double bound = bound_of(trial);
    if (bound < 0) {
      scan.put_off.push_back({std::move(trial), bound});
      continue;
    }
    keep_better(scan.search, judged(family, trial));
    if (scan.search.best.candidate.feasible)
      scan.first = i;
  }
  return scan;
}

FamilySearch finished(const DesignFamily& family, const Catalogue& catalogue, UpwardScan scan) {
  if (!scan.passes()) {
    std::stable_sort(scan.put_off.begin(), scan.put_off.end(),
                     [](const auto& a, const auto& b) { return a.bound > b.bound; });
    for (UpwardScan::PutOff& put_off : scan.put_off)
      if (put_off.bound >= scan.search.best.worst_margin)
        keep_better(scan.search, judged(family, put_off.trial));
  }
  refine(family, catalogue, scan.numbers, scan.first, scan.search);
  if (scan.search.best.candidate.feasible)
    take_whole_step(family, catalogue, scan.search);
  return std::move(scan.search);
}

} // namespace

FamilySearch lightest_passing(const DesignFamily& family, const Catalogue& catalogue) {
  return finished(family, catalogue, scan_upwards(family, catalogue));
}

std::vector<FamilySearch> lightest_passing(const std::vector<DesignFamily>& families, const Catalogue& catalogue) {
  std::vector<UpwardScan> scans;
  for (const DesignFamily& family : families)
    scans.push_back(scan_upwards(family, catalogue));
  const bool any = std::any_of(scans.begin(), scans.end(), [](const UpwardScan& scan) { return scan.passes(); });
  std::vector<FamilySearch> found;
  for (std::size_t i = 0; i < families.size(); ++i)
    if (!any || scans[i].passes())
      found.push_back(finished(families[i], catalogue, std::move(scans[i])));
  return found;
}

} // namespace crushwright
