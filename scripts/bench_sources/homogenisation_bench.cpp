// Speeds of a cell computed from its own solid. `limit_s` stands beside what is promised; the last benchmarks are the
// measured limits of the operator: the same arithmetic on data that stay in the first cache.
#include "crushwright/catalogue.hpp"
#include "crushwright/homogenisation.hpp"
#include "homogenisation/voxel_mesh.hpp"
#include "homogenisation/voxel_multigrid.hpp"
#include "homogenisation/voxel_operator.hpp"

#include <benchmark/benchmark.h>
#include <filesystem>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace {

using namespace crushwright;

const Catalogue& catalogue() {
  static const Catalogue shipped({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
  return shipped;
}

const UnitCell& gyroid() {
  return catalogue().cell("gyroid_sheet");
}

/// Frame and collapse in one direction, 111 as the dearest, of every strut cell at density 0.15.
void frame_and_collapse(benchmark::State& state, const UnitCell* cell) {
  const double size = size_ratio(*cell, 0.15);
  for (auto _ : state) {
    benchmark::DoNotOptimize(frame_stiffness(*cell, size, 0.3));
    benchmark::DoNotOptimize(frame_collapse(*cell, size, direction_vector("111")));
  }
  state.counters["limit_ms"] = 50;
}

const int registered = [] {
  for (const std::string& id : catalogue().cell_ids()) {
    const UnitCell& cell = catalogue().cell(id);
    if (cell.cell_class == CellClass::strut)
      benchmark::RegisterBenchmark(("frame_and_collapse/" + id).c_str(), frame_and_collapse, &cell)
          ->Unit(benchmark::kMillisecond);
  }
  return 0;
}();

/// Operations counted over time, printed as G/s.
benchmark::Counter rate(double operations) {
  return {operations, benchmark::Counter::kIsRate, benchmark::Counter::kIs1000};
}

/// Gyroid sheet; two load cases to 1e-6, from the cell's entry to its stiffness. Arguments: grid, density in per
/// cent.
void stiffness_of_a_gyroid_sheet(benchmark::State& state) {
  const double density = static_cast<double>(state.range(1)) / 100;
  SolidStiffness stiffness;
  for (auto _ : state)
    stiffness = solid_stiffness(gyroid(), size_ratio(gyroid(), density), 0.3,
                                SolidOptions{static_cast<int>(state.range(0)), 1e-6});
  state.counters["iterations_of_a_case"] = stiffness.iterations;
  if (state.range(0) == 128 && state.range(1) == 10)
    state.counters["limit_s"] = 8;
}
BENCHMARK(stiffness_of_a_gyroid_sheet)
    ->Args({64, 10})
    ->Args({128, 10})
    ->Args({64, 20})
    ->Args({128, 20})
    ->Unit(benchmark::kSecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1);

struct GyroidProblem {
  VoxelMesh mesh;
  VoxelMultigrid multigrid;
  std::vector<double> x;
  std::vector<double> y;

  explicit GyroidProblem(const VoxelSolid& solid)
      : mesh(voxel_mesh(solid)), multigrid(mesh, solid.cells, 0.3), x(3 * static_cast<std::size_t>(mesh.nodes)),
        y(x.size()) {
    for (std::size_t i = 0; i < x.size(); ++i)
      x[i] = static_cast<double>(i * 7919 % 1000) / 1000 - 0.5;
  }
};

GyroidProblem& problem() {
  static GyroidProblem only(voxel_solid(gyroid(), size_ratio(gyroid(), 0.1), 128));
  return only;
}

void operator_on_128_cubed(benchmark::State& state) {
  GyroidProblem& gyroid_problem = problem();
  for (auto _ : state)
    gyroid_problem.multigrid.apply(gyroid_problem.x, gyroid_problem.y);
  state.counters["Flop/s"] = rate(gyroid_problem.multigrid.operations() * static_cast<double>(state.iterations()));
  state.counters["elements"] = static_cast<double>(gyroid_problem.mesh.elements.size());
}
BENCHMARK(operator_on_128_cubed)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

void multigrid_cycle_on_128_cubed(benchmark::State& state) {
  GyroidProblem& gyroid_problem = problem();
  for (auto _ : state)
    gyroid_problem.multigrid.precondition(gyroid_problem.x, gyroid_problem.y);
}
BENCHMARK(multigrid_cycle_on_128_cubed)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

/// Limit: gather, element product and scatter of 64 elements of one row, again and again, on every core at once.
template <class Real>
void limit_element_kernel_in_first_cache(benchmark::State& state) {
  constexpr std::size_t row = 64;
  constexpr std::size_t rounds = 2000;
  const BrickBlocks<double> blocks = brick_blocks(brick_stiffness({1, 1, 1}, 0.3));
  BrickBlocks<Real> own;
  for (std::size_t parity = 0; parity < 8; ++parity)
    for (std::size_t c = 0; c < 3; ++c)
      for (std::size_t d = 0; d < 3; ++d)
        own.block[parity][c][d] = static_cast<Real>(blocks.block[parity][c][d]);
  std::vector<std::array<std::int32_t, 8>> elements(row);
  for (std::size_t element = 0; element < row; ++element)
    for (std::size_t corner = 0; corner < 8; ++corner)
      elements[element][corner] = static_cast<std::int32_t>(element + (corner & 1) + (corner >> 1) * (row + 1));
  const auto cores = static_cast<std::size_t>(tbb::this_task_arena::max_concurrency());
  for (auto _ : state)
    tbb::parallel_for(
        std::size_t{0}, cores,
        [&](std::size_t) {
          const std::vector<Real> x(12 * (row + 1), Real{1} / 8);
          std::vector<Real> y(x.size(), Real{0});
          for (std::size_t round = 0; round < rounds; ++round)
            add_brick_forces(own, elements.data(), row, x.data(), y.data());
          benchmark::DoNotOptimize(y.data());
        },
        tbb::simple_partitioner{});
  state.counters["Flop/s"] =
      rate(brick_operations * static_cast<double>(row * rounds * cores) * static_cast<double>(state.iterations()));
}
BENCHMARK(limit_element_kernel_in_first_cache<double>)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
BENCHMARK(limit_element_kernel_in_first_cache<float>)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

} // namespace
