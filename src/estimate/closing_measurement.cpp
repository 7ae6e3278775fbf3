#include "crushwright/estimate.hpp"
#include "estimate/impact_runs.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <functional>

namespace crushwright {
namespace {

/// One thing that scatters and the measurement that would settle it.
struct Unknown {
  const char* measurement;
  std::function<void(CrashCase&, std::vector<StructureModel>&, ScatterSet&)> settle;
};

void settle_interval(Quantity& quantity) {
  quantity.low.reset();
  quantity.high.reset();
}

void settle_interaction(ScatterSet& scatter) {
  settle_interval(scatter.interaction);
  scatter.interaction_tested = true;
}

const std::array<Unknown, 9>& unknowns() {
  static const std::array<Unknown, 9> all{
      Unknown{"compression tests of the lattice from the same build (scatter of the law)",
              [](CrashCase&, std::vector<StructureModel>&, ScatterSet& scatter) { scatter.law.value = 0; }},
      Unknown{"weighing and measuring printed parts of several builds (scatter of the build)",
              [](CrashCase&, std::vector<StructureModel>&, ScatterSet& scatter) { scatter.build.value = 0; }},
      Unknown{"crush tests of the empty skin (scatter of the skin law)",
              [](CrashCase&, std::vector<StructureModel>&, ScatterSet& scatter) { scatter.skin.value = 0; }},
      Unknown{"a crush test of the filled skin beside the empty one (lattice-skin interaction)",
              [](CrashCase&, std::vector<StructureModel>&, ScatterSet& scatter) { settle_interaction(scatter); }},
      Unknown{"dynamic compression tests at the crush speed (rate factor)",
              [](CrashCase&, std::vector<StructureModel>& structures, ScatterSet&) {
                for (StructureModel& structure : structures)
                  structure.rate_low = structure.rate_high = structure.rate_nominal;
              }},
      Unknown{
          "compression tests run well into densification (efficiency strain)",
          [](CrashCase&, std::vector<StructureModel>&, ScatterSet& scatter) { scatter.efficiency_strain.value = 0; }},
      Unknown{"a test or a calculation of what carries the structure (capacity of the attachment)",
              [](CrashCase&, std::vector<StructureModel>& structures, ScatterSet&) {
                for (StructureModel& structure : structures)
                  if (structure.attachment)
                    settle_interval(structure.attachment->capacity);
              }},
      Unknown{"a crush test of the face's blocks (crush pressure)",
              [](CrashCase& crash_case, std::vector<StructureModel>&, ScatterSet&) {
                for (ImpactInput& impact : crash_case.impacts)
                  if (impact.face)
                    for (FaceBlock& block : impact.face->blocks)
                      settle_interval(block.crush_pressure);
              }},
      Unknown{"narrower masses and speed of the impact",
              [](CrashCase& crash_case, std::vector<StructureModel>&, ScatterSet&) {
                for (ImpactInput& impact : crash_case.impacts) {
                  settle_interval(impact.striker.mass);
                  settle_interval(impact.struck.mass);
                  settle_interval(impact.closing_speed);
                }
              }}};
  return all;
}

/// A limit judged with a list of unknowns settled at their nominal values.
Check rejudge(CrashCase crash_case, std::vector<StructureModel> structures, ScatterSet scatter, const Check& check,
              const std::vector<const Unknown*>& settled) {
  for (const Unknown* unknown : settled)
    unknown->settle(crash_case, structures, scatter);
  const auto impact = std::find_if(crash_case.impacts.begin(), crash_case.impacts.end(),
                                   [&](const ImpactInput& each) { return each.id == check.limit.impact; });
  const ImpactSetup setup(*impact, structures);
  const auto curves =
      settle(structures, scatter, crash_case.level, setting_count, setup.needs_own_curves() ? &setup : nullptr);
  const JudgedImpact judged = run_impact(crash_case, *impact, setup, curves, 1, false);
  return *std::find_if(judged.checks.begin(), judged.checks.end(),
                       [&](const Check& each) { return each.limit.id == check.limit.id; });
}

} // namespace

std::string what_would_close(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                             const ScatterSet& scatter, const Check& check) {
  if (check.word != Word::open || check.limit.impact.empty() || !check.combined.nominal)
    return "";
  // Greedy: settle the unknown that helps most, then the next, until the limit holds.
  std::vector<const Unknown*> settled;
  std::vector<std::string> measurements;
  double margin = check.margin;
  while (margin < 0 && settled.size() < unknowns().size()) {
    const Unknown* best = nullptr;
    double best_margin = margin;
    for (const Unknown& unknown : unknowns()) {
      if (std::find(settled.begin(), settled.end(), &unknown) != settled.end())
        continue;
      settled.push_back(&unknown);
      const double with = rejudge(crash_case, structures, scatter, check, settled).margin;
      settled.pop_back();
      if (with > best_margin + 1e-9) {
        best_margin = with;
        best = &unknown;
      }
    }
    if (best == nullptr)
      break;
    settled.push_back(best);
    measurements.emplace_back(best->measurement);
    margin = best_margin;
  }
  if (margin < 0)
    return "no single set of measurements closes it at the nominal values: change the design";
  return fmt::format("would close if confirmed at the nominal value: {}", fmt::join(measurements, ", then "));
}

} // namespace crushwright
