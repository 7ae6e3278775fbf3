// The speeds that the project promises for the main job. `limit_ms` (or `limit_s`) stands beside each promised time;
// the last benchmarks are the measured peers: the same impact by an ODE library, and one pass of a plain loop over as
// many curve points.
#include "crushwright/estimate.hpp"
#include "crushwright/study.hpp"
#include "estimate/impact_runs.hpp"
#include "estimate/quick_judgement.hpp"

#include <benchmark/benchmark.h>
#include <boost/numeric/odeint.hpp>
#include <filesystem>

namespace {

using namespace crushwright;

const std::filesystem::path& source_folder() {
  static const std::filesystem::path folder(CRUSHWRIGHT_SOURCE_DIR);
  return folder;
}

std::filesystem::path demo_file() {
  return source_folder() / "cases" / "twin_rear_cones.yaml";
}

const CrashCase& demo() {
  static const CrashCase crash_case = read_case(demo_file());
  return crash_case;
}

const Catalogue& catalogue() {
  static const Catalogue shipped({source_folder() / "lattices"});
  return shipped;
}

const ScatterSet& deciding_set() {
  return demo().scatter_sets[demo().deciding_set];
}

void limit_ms(benchmark::State& state, double limit) {
  state.counters["limit_ms"] = limit;
}

/// Three impacts at weak, nominal and strong: structures, curves, motion, limits.
void weak_nominal_strong_of_the_demo(benchmark::State& state) {
  (void)structure_models(demo(), catalogue()); // the catalogue's files are read once
  for (auto _ : state) {
    const auto structures = structure_models(demo(), catalogue());
    benchmark::DoNotOptimize(quick_judgement(demo(), structures, deciding_set()));
  }
  limit_ms(state, 0.8);
}
BENCHMARK(weak_nominal_strong_of_the_demo)->Unit(benchmark::kMillisecond);

/// The same with the stacked sides and every figure that reports show.
void with_stacked_sides_and_figures(benchmark::State& state) {
  for (auto _ : state) {
    const auto structures = structure_models(demo(), catalogue());
    benchmark::DoNotOptimize(judge_case(demo(), structures, deciding_set(), false));
  }
}
BENCHMARK(with_stacked_sides_and_figures)->Unit(benchmark::kMillisecond);

/// The last from structures that are already there: what `scatter` would repeat without rebuilding them.
void sides_of_the_demo(benchmark::State& state) {
  const auto structures = structure_models(demo(), catalogue());
  for (auto _ : state)
    benchmark::DoNotOptimize(judge_case(demo(), structures, deciding_set(), false));
}
BENCHMARK(sides_of_the_demo)->Unit(benchmark::kMillisecond);

/// One set of values as a study takes it: structures built without what only reports show, three impacts integrated
/// and every limit measured, once.
void single_run_of_three_impacts(benchmark::State& state) {
  (void)structure_models(demo(), catalogue());
  for (auto _ : state) {
    const auto structures = bare_structure_models(demo(), catalogue());
    const auto settled = settle(structures, deciding_set(), demo().level, 1);
    for (const ImpactInput& impact : demo().impacts) {
      const ImpactSetup setup(impact, structures);
      benchmark::DoNotOptimize(run_impact(demo(), impact, setup, settled, 1, false));
    }
  }
  limit_ms(state, 0.25);
}
BENCHMARK(single_run_of_three_impacts)->Unit(benchmark::kMillisecond);

void structures_of_the_demo(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(structure_models(demo(), catalogue()));
}
BENCHMARK(structures_of_the_demo)->Unit(benchmark::kMillisecond);

/// Every scatter set, the stacked sides, 10 % more energy, and what would close open limits.
void full_estimate_with_everything(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(estimate(demo(), catalogue()));
}
BENCHMARK(full_estimate_with_everything)->Unit(benchmark::kMillisecond);

void sizing_of_the_demo(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(size_case(demo(), catalogue()));
}
BENCHMARK(sizing_of_the_demo)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

/// Every cell that can be printed in every printed material, sized for the demo over its cell edges.
void sizing_over_catalogue_and_materials(benchmark::State& state) {
  CrashCase everything = demo();
  everything.comparison->cells.clear();
  everything.comparison->materials.clear();
  everything.comparison->relative_densities.clear();
  for (const std::string& cell : catalogue().cell_ids())
    if (catalogue().cell(cell).cell_class != CellClass::foam)
      everything.comparison->cells.push_back(cell);
  for (const std::string& material : catalogue().material_ids())
    if (material.find("foam") == std::string::npos)
      everything.comparison->materials.push_back(material);
  for (auto _ : state)
    benchmark::DoNotOptimize(compare_case(everything, catalogue()));
  state.counters["limit_s"] = 2;
  state.counters["designs"] =
      static_cast<double>(everything.comparison->cells.size() * everything.comparison->materials.size());
}
BENCHMARK(sizing_over_catalogue_and_materials)
    ->Unit(benchmark::kSecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1);

void reading_the_case(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(read_case(demo_file()));
}
BENCHMARK(reading_the_case)->Unit(benchmark::kMillisecond);

struct NominalImpact {
  std::vector<StructureModel> structures = structure_models(demo(), catalogue());
  CrushCurve curve = scaled(structures.front().curve, 1.1, 1);
  Body striker{"striker", 1100, false};
  Body struck{"car", 1180, false};
  double speed = 35 / 3.6;
};

/// The nominal full-width impact in closed form, as the program does it.
void one_impact_in_closed_form(benchmark::State& state) {
  const NominalImpact impact;
  for (auto _ : state)
    benchmark::DoNotOptimize(
        integrate_impact(impact.striker, impact.struck, impact.speed,
                         {Group{0.5, {Line{"left", &impact.curve}}}, Group{0.5, {Line{"right", &impact.curve}}}}));
}
BENCHMARK(one_impact_in_closed_form)->Unit(benchmark::kMicrosecond);

/// Peer: the same crush motion by adaptive Dormand-Prince steps (relative 1e-8) up to standstill.
void peer_one_impact_by_ode_library(benchmark::State& state) {
  using State = std::array<double, 2>;
  const NominalImpact impact;
  const double mass = 0.5 * effective_mass(impact.striker, impact.struck);
  const auto motion = [&](const State& y, State& slope, double) {
    slope = {y[1], -impact.curve.force_at(std::max(0.0, y[0])) / mass};
  };
  for (auto _ : state) {
    auto stepper =
        boost::numeric::odeint::make_dense_output(1e-10, 1e-8, boost::numeric::odeint::runge_kutta_dopri5<State>());
    stepper.initialize(State{0, impact.speed}, 0.0, 1e-6);
    while (stepper.current_state()[1] > 0)
      stepper.do_step(motion);
    benchmark::DoNotOptimize(stepper.current_state());
  }
}
BENCHMARK(peer_one_impact_by_ode_library)->Unit(benchmark::kMicrosecond);

/// Peer: one divide and one square root for every point of one curve, the least a march over it can cost.
void peer_divide_and_root_per_curve_point(benchmark::State& state) {
  const NominalImpact impact;
  const CrushCurve& curve = impact.curve;
  for (auto _ : state) {
    double speed = impact.speed;
    for (std::size_t i = 0; i + 1 < curve.crush.size(); ++i)
      speed = std::sqrt(speed * speed + 1e-3 * (curve.crush[i + 1] - curve.crush[i]) / (1 + speed));
    benchmark::DoNotOptimize(speed);
  }
  state.counters["points"] = static_cast<double>(curve.crush.size());
}
BENCHMARK(peer_divide_and_root_per_curve_point)->Unit(benchmark::kMicrosecond);

} // namespace
