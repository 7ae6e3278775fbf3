#include "crushwright/errors.hpp"
#include "crushwright/study.hpp"
#include "quantities/units.hpp"
#include "study/family_search.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <tbb/parallel_for.h>

namespace crushwright {
namespace {

const LatticeInput& lattice_to_size(const CrashCase& crash_case) {
  if (!crash_case.sizing)
    fail_in_case(crash_case, "size", "the case does not say what may be sized",
                 "Add for instance `size: {cell_edges: [8 mm, 10 mm], smallest: 0.8 mm, largest: 2.5 mm}`.");
  for (const StructureInput& structure : crash_case.structures)
    if (structure.lattice && structure.lattice->size_key != "relative_density")
      return *structure.lattice;
  fail_in_case(crash_case, "structures", "no structure has a lattice of struts or walls to size",
               "Add a `lattice:` block with a strut or wall.");
}

std::string binding_sentence(const SizingResult& result, const std::string& missed_below, Objective objective) {
  const Candidate& best = result.best;
  if (!best.remark.empty() && !best.feasible)
    return fmt::format("No size could be judged: {}.", best.remark);
  if (best.governing_limit.empty())
    return "The case states no limit, so no size can pass.";
  if (!result.found)
    return fmt::format("No size serves: the one that misses by least misses {} by {:.1f} %.", best.governing_limit,
                       -100 * best.governing_margin);
  // Time and cost need not fall with the metal, so no limit stands at the light end for them.
  if (objective != Objective::mass)
    return fmt::format("Least {} of the sizes that pass; least margin {:.1f} % ({}).",
                       objective == Objective::build_time ? "build time" : "build cost", 100 * best.governing_margin,
                       best.governing_limit);
  if (missed_below.empty())
    return fmt::format("No limit binds: the smallest size that may be tried passes, least margin {:.1f} % ({}).",
                       100 * best.governing_margin, best.governing_limit);
  if (missed_below != best.governing_limit)
    return fmt::format("{} binds: with less metal it is missed first (least margin {:.1f} %, {}).", missed_below,
                       100 * best.governing_margin, best.governing_limit);
  return fmt::format("{} binds: with less metal it is missed first (margin {:.1f} %).", missed_below,
                     100 * best.governing_margin);
}

bool better(const Candidate& a, const Candidate& b, Objective objective) {
  if (a.feasible != b.feasible)
    return a.feasible;
  return a.feasible ? objective_of(a, objective) < objective_of(b, objective) : misses_by_less(a, b);
}

} // namespace

SizingResult size_case(const CrashCase& crash_case, const Catalogue& catalogue) {
  const LatticeInput& lattice = lattice_to_size(crash_case);
  const SizingInput& sizing = *crash_case.sizing;
  std::vector<FamilySearch> searches(sizing.cell_edges.size());
  // Each choice writes its own slot, so any number of threads gives the same result.
  tbb::parallel_for(std::size_t{0}, searches.size(), [&](std::size_t i) {
    DesignFamily family = sized_lattice(crash_case, catalogue, lattice.cell, lattice.material, sizing.cell_edges[i],
                                        sizing.size_low, sizing.size_high);
    family.objective = sizing.objective;
    searches[i] = scan_and_refine(family, catalogue);
  });
  SizingResult result;
  std::string missed_below;
  for (FamilySearch& search : searches) {
    const Candidate& candidate = search.best.candidate;
    if (result.per_choice.empty() || better(candidate, result.best, sizing.objective)) {
      result.best = candidate;
      missed_below = search.missed_below;
    }
    result.per_choice.push_back(candidate);
    result.scanned.insert(result.scanned.end(), search.scanned.begin(), search.scanned.end());
  }
  result.found = result.best.feasible;
  result.binding = binding_sentence(result, missed_below, sizing.objective);
  return result;
}

} // namespace crushwright
