#include "crushwright/study.hpp"

#include "estimate/quick_judgement.hpp"
#include "estimate/sample_cases.hpp"
#include "quantities/message_of.hpp"
#include "study/family_search.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <tbb/global_control.h>

using namespace crushwright;
using namespace sample_cases;

namespace {

const std::string tested = "scatter:\n  decide_with: tested\n  sets:\n    tested: {law: 4 %, build: 5 %, skin: 6 %, "
                           "interaction: 1.1, efficiency_strain: 2 %}\n";

constexpr double micrometre = 1e-6; // sizes are answered in whole ones

/// The honeycomb block with room on both sides: a thin wall bottoms out, a thick one breaks the force limit.
CrashCase block_to_size(const std::string& force = "250 kN", const std::string& range = "0.30 mm, largest: 0.75 mm") {
  return case_of(block("block"), drop(),
                 "  force: {of: block, quantity: force, at_most: " + force +
                     "}\n  stroke: {quantity: stroke_used, at_most: 100 %}\n",
                 tested + "size: {cell_edges: [8 mm], smallest: " + range + "}\n");
}

CrashCase with_size(CrashCase crash_case, double cell_edge, double tip) {
  for (StructureInput& structure : crash_case.structures) {
    LatticeInput& lattice = *structure.lattice;
    const double grading = lattice.size_root.value / lattice.size_tip.value;
    lattice.cell_edge.value = cell_edge;
    lattice.size_tip.value = tip;
    lattice.size_root.value = tip * grading;
  }
  return crash_case;
}

double mass_of(const std::vector<StructureModel>& models) {
  double mass = 0;
  for (const StructureModel& model : models)
    mass += model.mass.total;
  return mass;
}

struct Lightest {
  double mass = std::numeric_limits<double>::infinity();
  double size = 0;
};

/// Every size of a fine grid judged; nothing of the study room is used.
Lightest by_brute_force(const CrashCase& crash_case, int points) {
  Lightest found;
  for (const double edge : crash_case.sizing->cell_edges)
    for (int i = 0; i < points; ++i) {
      const double size = crash_case.sizing->size_low +
                          (crash_case.sizing->size_high - crash_case.sizing->size_low) * i / (points - 1);
      const CrashCase sized = with_size(crash_case, edge, size);
      const auto models = structure_models(sized, catalogue());
      const double mass = mass_of(models);
      if (mass < found.mass &&
          judge_case(sized, models, sized.scatter_sets[sized.deciding_set], false).verdict.word == Word::pass)
        found = {mass, size};
    }
  return found;
}

const Candidate& labelled(const std::vector<Candidate>& candidates, const std::string& part) {
  const auto found = std::find_if(candidates.begin(), candidates.end(), [&](const Candidate& candidate) {
    return candidate.label.find(part) != std::string::npos;
  });
  REQUIRE(found != candidates.end());
  return *found;
}

bool same(const std::vector<Candidate>& a, const std::vector<Candidate>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Candidate& x, const Candidate& y) {
    return x.label == y.label && x.mass == y.mass && x.size_tip == y.size_tip && x.word == y.word &&
           x.governing_margin == y.governing_margin && x.governing_limit == y.governing_limit &&
           x.peak_force == y.peak_force && x.remark == y.remark;
  });
}

CrashCase comparison(const std::string& densities = "[8 %, 15 %]") {
  return case_of(cone("cone", "1.7 mm", skin), drop("500 kg"),
                 "  force: {of: cone, quantity: force, at_most: 130 kN}\n"
                 "  stroke: {quantity: stroke_used, at_most: 100 %}\n",
                 tested +
                     "size: {cell_edges: [10 mm, 12 mm], smallest: 0.5 mm, largest: 3 mm}\n"
                     "compare: {cells: [bcc, kelvin, octet], materials: [AlSi10Mg-stress-relieved, "
                     "Ti-6Al-4V-annealed], relative_densities: " +
                     densities + "}\n");
}

} // namespace

TEST_CASE("the sized block is the lightest that a fine grid finds") {
  const CrashCase crash_case = block_to_size();
  const SizingResult result = size_case(crash_case, catalogue());
  REQUIRE(result.found);
  constexpr int points = 1801; // 0.25 micrometres
  const Lightest grid = by_brute_force(crash_case, points);
  const double step = 0.45e-3 / (points - 1);
  INFO("sized " << result.best.size_tip << " m, " << result.best.mass << " kg; grid " << grid.size << " m, "
                << grid.mass << " kg");
  // The true edge lies within a grid step below the grid's answer; the search gives the next whole micrometre.
  CHECK(result.best.size_tip <= grid.size + micrometre * (1 + 1e-6));
  CHECK(result.best.size_tip >= grid.size - step * (1 + 1e-6));
  CHECK(result.best.size_tip / micrometre == Approx(std::round(result.best.size_tip / micrometre)).epsilon(1e-9));
  CHECK(result.best.mass <= grid.mass * (1 + micrometre / grid.size));
}

TEST_CASE("the sized student attenuator is the lightest that a fine grid finds over its cell edges") {
  CrashCase crash_case = shipped_case("student_attenuator");
  ScatterSet& set = crash_case.scatter_sets[crash_case.deciding_set];
  set.law.value = set.build.value = set.efficiency_strain.value = 0.01;
  const SizingResult result = size_case(crash_case, catalogue());
  REQUIRE(result.found);
  const Lightest grid = by_brute_force(crash_case, 801); // 2 micrometres of strut
  INFO("sized " << result.best.mass << " kg, grid " << grid.mass << " kg");
  // Mass goes as the square of the strut of 1.0 to 1.5 mm: the grid's step of 2 micrometres is 0.4 % of it, the whole
  // micrometre of the answer 0.2 %.
  CHECK(result.best.mass <= grid.mass * (1 + 0.002));
  CHECK(result.best.mass >= grid.mass * (1 - 0.004));
}

TEST_CASE("a sized design passes, and a micrometre less misses the limit that is named") {
  const CrashCase crash_case = block_to_size();
  const SizingResult result = size_case(crash_case, catalogue());
  REQUIRE(result.found);
  INFO(result.binding);
  CHECK(result.binding.find("stroke (drop) binds: with less metal it is missed first (margin ") == 0);
  CHECK(result.best.governing_margin < 0.01);
  const CrashCase thinner = with_size(crash_case, 8e-3, result.best.size_tip - 1.001 * micrometre);
  const Verdict verdict =
      judge_case(thinner, structure_models(thinner, catalogue()), thinner.scatter_sets[thinner.deciding_set], false)
          .verdict;
  CHECK(verdict.word == Word::open);
  CHECK(verdict.checks[verdict.governing].limit.id == "stroke");
  const CrashCase thicker = with_size(crash_case, 8e-3, result.best.size_tip + micrometre);
  CHECK(judge_case(thicker, structure_models(thicker, catalogue()), thicker.scatter_sets[thicker.deciding_set], false)
            .verdict.word == Word::pass);
}

TEST_CASE("where the smallest size allowed passes no limit binds, and that is said") {
  const SizingResult result = size_case(block_to_size("250 kN", "0.50 mm, largest: 0.60 mm"), catalogue());
  REQUIRE(result.found);
  CHECK(result.best.size_tip == Approx(0.5e-3).epsilon(1e-12));
  CHECK(result.binding.find("No limit binds: the smallest size that may be tried passes") == 0);
}

TEST_CASE("when no size serves, the least miss is found and says what it misses and by how much") {
  const CrashCase crash_case = block_to_size("70 kN");
  const SizingResult result = size_case(crash_case, catalogue());
  CHECK_FALSE(result.found);
  INFO(result.binding);
  CHECK(result.binding.find("No size serves: the one that misses by least misses ") == 0);
  CHECK(result.best.governing_margin < 0);
  double least_miss = -std::numeric_limits<double>::infinity();
  for (int i = 0; i <= 900; ++i) {
    const CrashCase sized = with_size(crash_case, 8e-3, 0.30e-3 + 0.45e-3 * i / 900);
    const Verdict verdict =
        judge_case(sized, structure_models(sized, catalogue()), sized.scatter_sets[sized.deciding_set], false)
            .verdict;
    double worst = std::numeric_limits<double>::infinity();
    for (const Check& check : verdict.checks)
      worst = std::min(worst, check.margin);
    least_miss = std::max(least_miss, worst);
  }
  CHECK(result.best.governing_margin == Approx(least_miss).margin(1e-3));
}

TEST_CASE("a cell edge that cannot be judged never stands before one that can") {
  // At an edge of 60 mm the entry's own range of walls lies beyond what may be tried.
  CrashCase crash_case = block_to_size("70 kN");
  crash_case.sizing->cell_edges = {1.0, 8e-3};
  const SizingResult result = size_case(crash_case, catalogue());
  REQUIRE(result.per_choice.size() == 2);
  CHECK_FALSE(result.per_choice.front().remark.empty());
  CHECK(result.best.cell_edge == Approx(8e-3));
  CHECK(result.best.remark.empty());
}

TEST_CASE("a case that says nothing of sizing is asked for what may be sized") {
  const CrashCase crash_case = case_of(block("block"), drop());
  CHECK(message_of([&] {
          size_case(crash_case, catalogue());
        }).find("Add for instance `size: {cell_edges: [8 mm, 10 mm], smallest: 0.8 mm, largest: 2.5 mm}`") !=
        std::string::npos);
}

TEST_CASE("without a limit no size can pass, and that is said") {
  const CrashCase crash_case =
      case_of(block("block"), drop(), "", "size: {cell_edges: [8 mm], smallest: 0.3 mm, largest: 0.7 mm}\n");
  const SizingResult result = size_case(crash_case, catalogue());
  CHECK_FALSE(result.found);
  CHECK(result.binding == "The case states no limit, so no size can pass.");
}

TEST_CASE("compare puts those that pass first, by mass, and the rest by how little they miss") {
  const ComparisonResult result = compare_case(comparison(), catalogue());
  CHECK(result.fixed.size() == 12);
  CHECK(result.sized.size() == 6);
  bool any_passes = false;
  for (const auto* table : {&result.fixed, &result.sized, &result.baselines})
    for (std::size_t i = 0; i + 1 < table->size(); ++i) {
      const Candidate& a = (*table)[i];
      const Candidate& b = (*table)[i + 1];
      any_passes = any_passes || a.feasible;
      CHECK((a.feasible || !b.feasible));
      if (a.feasible && b.feasible)
        CHECK(a.mass <= b.mass);
      if (!a.feasible && !b.feasible && a.remark.empty() && b.remark.empty())
        CHECK(a.governing_margin >= b.governing_margin);
    }
  CHECK(any_passes);
}

TEST_CASE("the lattice has to beat an empty skin, a foam and a honeycomb") {
  const ComparisonResult result = compare_case(comparison(), catalogue());
  REQUIRE(result.baselines.size() == 3);
  const Candidate& empty = labelled(result.baselines, "Baseline: Empty skin");
  CHECK(empty.cell.empty());
  CHECK(empty.relative_density == 0);
  CHECK(labelled(result.baselines, "metal_foam_closed").material == "aluminium-foam-wall");
  CHECK(labelled(result.baselines, "honeycomb").cell == "honeycomb_uniform_wall");
}

TEST_CASE("a design at a stated density has that density at mid length") {
  for (const Candidate& candidate : compare_case(comparison(), catalogue()).fixed) {
    INFO(candidate.label << candidate.remark);
    CHECK(std::min(std::abs(candidate.relative_density - 0.08), std::abs(candidate.relative_density - 0.15)) < 1e-3);
  }
}

TEST_CASE("a density that the catalogue's entry does not reach is kept in the table with the reason") {
  const ComparisonResult result = compare_case(comparison("[15 %, 90 %]"), catalogue());
  CHECK(result.fixed.size() == 12);
  int remarked = 0;
  for (const Candidate& candidate : result.fixed) {
    CHECK(candidate.remark.empty() == (candidate.relative_density < 0.5));
    if (candidate.remark.empty())
      continue;
    ++remarked;
    CHECK_FALSE(candidate.feasible);
    CHECK(candidate.remark.find("0.9") != std::string::npos);
  }
  CHECK(remarked == 6);
  CHECK_FALSE(result.fixed.back().remark.empty());
}

TEST_CASE("one thread and two give the same studies to the last digit") {
  const CrashCase to_size = shipped_case("student_attenuator");
  const auto run = [&](std::size_t threads) {
    const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
    return std::pair{size_case(to_size, catalogue()), compare_case(comparison(), catalogue())};
  };
  const auto one = run(1), two = run(2);
  CHECK(one.first.binding == two.first.binding);
  CHECK(same(one.first.per_choice, two.first.per_choice));
  CHECK(same(one.first.scanned, two.first.scanned));
  CHECK(same(one.second.fixed, two.second.fixed));
  CHECK(same(one.second.sized, two.second.sized));
  CHECK(same(one.second.baselines, two.second.baselines));
}

TEST_CASE("a search that judges only what can change its answer gives the answer of the full scan") {
  CrashCase crash_case = comparison();
  for (const char* force : {"60 kN", "90 kN", "130 kN", "300 kN"}) {
    crash_case.limits.front().value.value = std::stod(force) * 1e3;
    for (const char* cell : {"bcc", "kelvin", "octet", "honeycomb_uniform_wall"})
      for (const double edge : {8e-3, 14e-3}) {
        const DesignFamily family =
            sized_lattice(crash_case, catalogue(), cell, "AlSi10Mg-stress-relieved", edge, 0.4e-3, 3e-3);
        const FamilySearch full = scan_and_refine(family, catalogue()), quick = lightest_passing(family, catalogue());
        INFO(cell << " " << edge << " under " << force);
        CHECK(same({full.best.candidate}, {quick.best.candidate}));
        CHECK(full.best.worst_margin == quick.best.worst_margin);
      }
  }
}

TEST_CASE("a design judged for a search has the verdict of the whole chain") {
  for (const char* name : {"honeycomb_block", "student_attenuator", "twin_rear_cones"}) {
    const CrashCase crash_case = shipped_case(name);
    const ScatterSet& scatter = crash_case.scatter_sets[crash_case.deciding_set];
    const JudgedSet whole = judge_case(crash_case, structure_models(crash_case, catalogue()), scatter);
    const QuickJudgement quick = quick_judgement(crash_case, bare_structure_models(crash_case, catalogue()), scatter);
    REQUIRE(quick.verdict.checks.size() == whole.verdict.checks.size());
    CHECK(quick.verdict.word == whole.verdict.word);
    CHECK(quick.verdict.governing == whole.verdict.governing);
    for (std::size_t i = 0; i < whole.verdict.checks.size(); ++i)
      CHECK(quick.verdict.checks[i].margin == whole.verdict.checks[i].margin);
    CHECK(quick.specific_energy_absorption == whole.curves.front().specific_energy_absorption);
    double nominal = std::numeric_limits<double>::infinity();
    for (const Check& check : whole.verdict.checks)
      nominal = std::min(nominal, check.nominal_margin);
    CHECK(nominal_margin(crash_case, bare_structure_models(crash_case, catalogue()), scatter) == nominal);
  }
}
