#include "crushwright/errors.hpp"
#include "crushwright/study.hpp"
#include "quantities/units.hpp"
#include "study/family_search.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <tbb/parallel_for.h>

namespace crushwright {
namespace {

constexpr const char* foam_cell = "metal_foam_closed";
constexpr const char* foam_material = "aluminium-foam-wall";
constexpr const char* honeycomb_cell = "honeycomb_uniform_wall";
/// Sizes that a sized comparison may use when the case has no sizing block [m].
constexpr double default_smallest = 0.3e-3, default_largest = 5e-3;

const CompareInput& comparison_of(const CrashCase& crash_case) {
  if (!crash_case.comparison)
    fail_in_case(
        crash_case, "compare", "the case does not say what to compare",
        "Add for instance `compare: {cells: [octet], materials: [AlSi10Mg-T6], relative_densities: [10 %]}`.");
  return *crash_case.comparison;
}

std::vector<double> cell_edges(const CrashCase& crash_case) {
  if (crash_case.sizing)
    return crash_case.sizing->cell_edges;
  for (const StructureInput& structure : crash_case.structures)
    if (structure.lattice && structure.lattice->cell_edge.value > 0)
      return {structure.lattice->cell_edge.value};
  fail_in_case(crash_case, "compare", "no structure states a cell edge, so cells cannot be sized",
               "Add a `size:` block with `cell_edges`.");
}

/// One design at a stated relative density.
Candidate fixed_design(const CrashCase& crash_case, const Catalogue& catalogue, const std::string& cell_id,
                       const std::string& material, double edge, double density) {
  DesignFamily family =
      sized_lattice(crash_case, catalogue, cell_id, material, edge, default_smallest, default_largest, Steps::exact);
  family.label = fmt::format("{}, {}, relative density {}", catalogue.cell(cell_id).name, material,
                             show(density, Dimension::fraction));
  try {
    const double tip = tip_size_for(catalogue.cell(cell_id), density, edge, grading_of(crash_case));
    return judge_design(family, catalogue, tip).candidate;
  } catch (const OutOfDomain& fault) {
    Candidate candidate;
    candidate.label = family.label;
    candidate.cell = cell_id;
    candidate.material = material;
    candidate.cell_edge = edge;
    candidate.relative_density = density;
    candidate.remark = fault.what();
    return candidate;
  }
}

/// Passing designs by mass, then the rest by how little they miss, then what could not be judged.
void rank(std::vector<Candidate>& candidates) {
  std::stable_sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
    if (a.feasible != b.feasible)
      return a.feasible;
    return a.feasible ? a.mass < b.mass : misses_by_less(a, b);
  });
}

/// The lightest over the cell edges.
Candidate lightest_over_edges(const CrashCase& crash_case, const Catalogue& catalogue, const std::string& cell,
                              const std::string& material) {
  const double low = crash_case.sizing ? crash_case.sizing->size_low : default_smallest;
  const double high = crash_case.sizing ? crash_case.sizing->size_high : default_largest;
  std::vector<DesignFamily> families;
  for (const double edge : cell_edges(crash_case))
    families.push_back(sized_lattice(crash_case, catalogue, cell, material, edge, low, high));
  std::vector<Candidate> found;
  for (FamilySearch& search : lightest_passing(families, catalogue))
    found.push_back(std::move(search.best.candidate));
  rank(found);
  return found.front();
}

struct Pair {
  std::string cell;
  std::string material;
};

std::vector<Pair> pairs(const CompareInput& input) {
  std::vector<Pair> found;
  for (const std::string& cell : input.cells)
    for (const std::string& material : input.materials)
      found.push_back({cell, material});
  return found;
}

template <class Make>
std::vector<Candidate> in_parallel(std::size_t count, const Make& make) {
  std::vector<Candidate> found(count);
  // Each task writes its own slot, so any number of threads gives the same result.
  tbb::parallel_for(std::size_t{0}, count, [&](std::size_t i) { found[i] = make(i); });
  return found;
}

std::string first_material(const CrashCase& crash_case, const CompareInput& input) {
  for (const StructureInput& structure : crash_case.structures)
    if (structure.lattice)
      return structure.lattice->material;
  return input.materials.front();
}

bool knows(const std::vector<std::string>& ids, const std::string& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

/// What any lattice has to beat: the empty skin with a thicker wall, and the skin filled with foam or honeycomb.
std::vector<Candidate> baselines(const CrashCase& crash_case, const Catalogue& catalogue, const CompareInput& input,
                                 std::vector<std::string>& notes) {
  std::vector<Candidate> found{lightest_passing(empty_skin(crash_case), catalogue).best.candidate};
  if (knows(catalogue.cell_ids(), foam_cell) && knows(catalogue.material_ids(), foam_material))
    found.push_back(lightest_passing(foam_filled(crash_case, foam_cell, foam_material), catalogue).best.candidate);
  else
    notes.push_back("The catalogue in use has no metal foam, so that baseline is missing.");
  if (knows(catalogue.cell_ids(), honeycomb_cell))
    found.push_back(lightest_over_edges(crash_case, catalogue, honeycomb_cell, first_material(crash_case, input)));
  else
    notes.push_back("The catalogue in use has no honeycomb, so that baseline is missing.");
  for (Candidate& candidate : found)
    candidate.label = "Baseline: " + candidate.label;
  return found;
}

} // namespace

ComparisonResult compare_case(const CrashCase& crash_case, const Catalogue& catalogue) {
  const CompareInput& input = comparison_of(crash_case);
  const std::vector<Pair> choices = pairs(input);
  const double edge = cell_edges(crash_case)[cell_edges(crash_case).size() / 2];
  ComparisonResult result;
  const std::size_t densities = input.relative_densities.size();
  result.fixed = in_parallel(choices.size() * densities, [&](std::size_t i) {
    const Pair& pair = choices[i / densities];
    return fixed_design(crash_case, catalogue, pair.cell, pair.material, edge,
                        input.relative_densities[i % densities]);
  });
  result.sized = in_parallel(choices.size(), [&](std::size_t i) {
    return lightest_over_edges(crash_case, catalogue, choices[i].cell, choices[i].material);
  });
  result.baselines = baselines(crash_case, catalogue, input, result.notes);
  rank(result.fixed);
  rank(result.sized);
  rank(result.baselines);
  result.notes.push_back(
      fmt::format("Designs at stated densities use a cell edge of {}; sized designs the best of the "
                  "stated edges. Skin, sections and limits are the case's own.",
                  show(edge, Dimension::length)));
  result.notes.push_back(
      "An empty skin is judged as a wall that folds from end to end. Oblique hits, dents and bending of "
      "the whole column, where a filling helps, are not judged here.");
  return result;
}

} // namespace crushwright
