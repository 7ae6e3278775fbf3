#include "study/design_family.hpp"

#include "crushwright/errors.hpp"
#include "quantities/units.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace crushwright {
namespace {

constexpr int scan_points = 36;
constexpr int bisections = 16;
constexpr double thinnest_skin = 0.4e-3, thickest_skin = 10e-3;
constexpr double lightest_foam = 0.03, densest_foam = 0.40;
/// Room kept to the ends of a catalogue entry's range, so that rounding never leaves it.
constexpr double inside = 1e-6;

std::string direction_of(const UnitCell& cell, const std::string& asked) {
  const auto has = [&](const std::string& direction) {
    return std::any_of(cell.plateau_stress.begin(), cell.plateau_stress.end(), [&](const PowerLaw& law) {
      return law.origin.direction == direction || law.origin.direction == "any";
    });
  };
  if (cell.plateau_stress.empty() || has(asked))
    return asked;
  return cell.plateau_stress.front().origin.direction;
}

std::string size_key_of(const UnitCell& cell) {
  return cell.cell_class == CellClass::foam    ? "relative_density"
         : cell.cell_class == CellClass::strut ? "strut"
                                               : "wall";
}

/// What weighing and measuring said belongs to the part that was built, not to a design that differs from it.
void forget_as_built(CrashCase& crash_case) {
  for (StructureInput& structure : crash_case.structures)
    structure.as_built.reset();
}

void set_lattice(CrashCase& crash_case, const UnitCell& cell, const std::string& material, double cell_edge,
                 double tip, double root) {
  forget_as_built(crash_case);
  for (StructureInput& structure : crash_case.structures) {
    LatticeInput lattice = structure.lattice.value_or(LatticeInput{});
    lattice.cell = cell.id;
    lattice.material = material;
    lattice.crush_direction = direction_of(cell, lattice.crush_direction);
    lattice.cell_edge.value = cell_edge;
    lattice.size_key = size_key_of(cell);
    lattice.size_tip.value = tip;
    lattice.size_root.value = root;
    lattice.process_offset.reset();
    structure.lattice = std::move(lattice);
  }
}

const LatticeInput* first_lattice(const CrashCase& crash_case) {
  for (const StructureInput& structure : crash_case.structures)
    if (structure.lattice)
      return &*structure.lattice;
  return nullptr;
}

void fill_figures(const CrashCase& crash_case, const std::vector<StructureModel>& models, const JudgedSet& judged,
                  Candidate& candidate) {
  const StructureModel& model = models.front();
  const Layer& middle = model.layers[model.layers.size() / 2];
  candidate.relative_density = middle.relative_density;
  candidate.skin_thickness = model.skin_thickness;
  if (const auto& lattice = crash_case.structures.front().lattice) {
    candidate.size_tip = lattice->size_tip.value;
    candidate.size_root = lattice->size_root.value;
  }
  for (const StructureModel& each : models)
    candidate.mass += each.mass.total;
  for (const ImpactOutcome& impact : judged.impacts)
    for (const StructureOutcome& outcome : impact.sides[1].structures) {
      candidate.peak_force = std::max(candidate.peak_force, outcome.peak_force);
      candidate.peak_crush = std::max(candidate.peak_crush, outcome.peak_crush);
    }
  candidate.specific_energy_absorption = judged.curves.front().specific_energy_absorption;
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

double worst_margin(const Verdict& verdict, bool with_mass) {
  double worst = std::numeric_limits<double>::infinity();
  for (const Check& check : verdict.checks)
    if (with_mass || check.limit.quantity != LimitedQuantity::mass)
      worst = std::min(worst, check.margin);
  return worst;
}

/// Better in the search: passing before not passing; then lighter, or missing by less.
bool better(const JudgedDesign& a, const JudgedDesign& b) {
  if (a.candidate.feasible != b.candidate.feasible)
    return a.candidate.feasible;
  return a.candidate.feasible ? a.candidate.mass < b.candidate.mass : a.worst_margin > b.worst_margin;
}

void keep_better(FamilySearch& search, JudgedDesign design, double number) {
  if (better(design, search.best)) {
    search.best = std::move(design);
    search.best_number = number;
  }
}

/// Bisection between a number that does not pass and one that does.
void refine_edge(const DesignFamily& family, const Catalogue& catalogue, double failing, double passing,
                 FamilySearch& search) {
  for (int i = 0; i < bisections; ++i) {
    const double middle = 0.5 * (failing + passing);
    JudgedDesign design = judge_design(family, catalogue, middle);
    (design.candidate.feasible ? passing : failing) = middle;
    if (!design.candidate.feasible)
      search.missed_below = design.candidate.governing_limit;
    keep_better(search, std::move(design), middle);
  }
}

/// Golden-section search for the least miss between two neighbours of the best scanned number.
void refine_miss(const DesignFamily& family, const Catalogue& catalogue, double low, double high,
                 FamilySearch& search) {
  constexpr double golden = 0.6180339887498949;
  for (int i = 0; i < bisections; ++i) {
    const double a = high - golden * (high - low), b = low + golden * (high - low);
    JudgedDesign first = judge_design(family, catalogue, a), second = judge_design(family, catalogue, b);
    (first.worst_margin > second.worst_margin ? high : low) = first.worst_margin > second.worst_margin ? b : a;
    keep_better(search, std::move(first), a);
    keep_better(search, std::move(second), b);
  }
}

} // namespace

bool misses_by_less(const Candidate& a, const Candidate& b) {
  if (a.remark.empty() != b.remark.empty())
    return a.remark.empty();
  return a.governing_margin > b.governing_margin;
}

double grading_of(const CrashCase& crash_case) {
  const LatticeInput* lattice = first_lattice(crash_case);
  return lattice == nullptr ? 1 : lattice->size_root.value / lattice->size_tip.value;
}

double tip_size_for(const UnitCell& cell, double density, double cell_edge, double grading) {
  const double middle = cell.cell_class == CellClass::foam ? density : size_ratio(cell, density) * cell_edge;
  return 2 * middle / (1 + grading);
}

JudgedDesign judge_design(const DesignFamily& family, const Catalogue& catalogue, double number) {
  JudgedDesign judged;
  Candidate& candidate = judged.candidate;
  candidate.label = family.label;
  candidate.cell = family.cell;
  candidate.material = family.material;
  candidate.cell_edge = family.cell_edge;
  judged.worst_margin = judged.worst_margin_but_mass = -std::numeric_limits<double>::max();
  try {
    const CrashCase crash_case = family.design(number);
    const std::vector<StructureModel> models = structure_models(crash_case, catalogue);
    const JudgedSet set = judge_case(crash_case, models, crash_case.scatter_sets[crash_case.deciding_set], false);
    fill_figures(crash_case, models, set, candidate);
    judged.worst_margin = worst_margin(set.verdict, true);
    judged.worst_margin_but_mass = worst_margin(set.verdict, false);
  } catch (const InputError& fault) {
    const std::string message = fault.what();
    candidate.remark = message.substr(0, message.find('\n'));
  } catch (const OutOfDomain& fault) {
    candidate.remark = fault.what();
  }
  return judged;
}

FamilySearch lightest_passing(const DesignFamily& family, const Catalogue& catalogue) {
  FamilySearch search;
  search.best.worst_margin = -std::numeric_limits<double>::infinity();
  search.best.candidate.label = family.label;
  if (!(family.high > family.low)) {
    search.best.candidate.remark = "no size in the stated range fits this cell's own range";
    return search;
  }
  std::vector<double> numbers;
  std::vector<bool> passes;
  for (int i = 0; i < scan_points; ++i) {
    const double number = family.low * std::pow(family.high / family.low, i / (scan_points - 1.0));
    JudgedDesign design = judge_design(family, catalogue, number);
    numbers.push_back(number);
    passes.push_back(design.candidate.feasible);
    search.scanned.push_back(design.candidate);
    keep_better(search, std::move(design), number);
  }
  const auto first = static_cast<std::size_t>(std::find(passes.begin(), passes.end(), true) - passes.begin());
  if (first < numbers.size()) {
    if (first > 0) {
      search.missed_below = search.scanned[first - 1].governing_limit;
      refine_edge(family, catalogue, numbers[first - 1], numbers[first], search);
    }
    return search;
  }
  const auto at =
      static_cast<std::size_t>(std::find(numbers.begin(), numbers.end(), search.best_number) - numbers.begin());
  if (at < numbers.size())
    refine_miss(family, catalogue, numbers[at > 0 ? at - 1 : 0], numbers[std::min(at + 1, numbers.size() - 1)],
                search);
  return search;
}

DesignFamily sized_lattice(const CrashCase& crash_case, const Catalogue& catalogue, const std::string& cell_id,
                           const std::string& material, double cell_edge, double low, double high) {
  const UnitCell& cell = catalogue.cell(cell_id);
  const double grading = grading_of(crash_case);
  DesignFamily family;
  family.label = fmt::format("{}, {}, cell {}", cell.name, material, show(cell_edge, Dimension::length));
  family.cell = cell_id;
  family.material = material;
  family.cell_edge = cell_edge;
  // Both ends of the grading must stay inside what was asked and what the entry knows.
  const double small = std::min(1.0, grading), large = std::max(1.0, grading);
  family.low = std::max(low, cell.size_ratio_range.low * cell_edge * (1 + inside)) / small;
  family.high = std::min(high, cell.size_ratio_range.high * cell_edge * (1 - inside)) / large;
  family.design = [&crash_case, &cell, material, cell_edge, grading](double tip) {
    CrashCase changed = crash_case;
    set_lattice(changed, cell, material, cell_edge, tip, tip * grading);
    return changed;
  };
  return family;
}

DesignFamily empty_skin(const CrashCase& crash_case) {
  const LatticeInput* lattice = first_lattice(crash_case);
  std::string material = lattice == nullptr ? "" : lattice->material;
  for (const StructureInput& structure : crash_case.structures)
    if (structure.skin)
      material = structure.skin->material;
  DesignFamily family;
  family.label = fmt::format("Empty skin, {}", material);
  family.material = material;
  family.low = thinnest_skin;
  family.high = thickest_skin;
  family.design = [&crash_case, material](double thickness) {
    CrashCase changed = crash_case;
    forget_as_built(changed);
    for (StructureInput& structure : changed.structures) {
      structure.lattice.reset();
      if (!structure.skin)
        structure.skin = SkinInput{material, {}, {}};
      structure.skin->thickness.value = thickness;
    }
    return changed;
  };
  return family;
}

DesignFamily foam_filled(const CrashCase& crash_case, const std::string& foam, const std::string& material) {
  DesignFamily family;
  family.label = fmt::format("{}, {}", foam, material);
  family.cell = foam;
  family.material = material;
  family.low = lightest_foam;
  family.high = densest_foam;
  family.design = [&crash_case, foam, material](double density) {
    CrashCase changed = crash_case;
    UnitCell named;
    named.id = foam;
    named.cell_class = CellClass::foam;
    set_lattice(changed, named, material, 0, density, density);
    for (StructureInput& structure : changed.structures)
      structure.lattice->crush_direction = "100"; // a foam is the same in every direction
    return changed;
  };
  return family;
}

} // namespace crushwright
