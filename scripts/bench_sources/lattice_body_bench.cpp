// Speeds of trimming a lattice of about a million struts to a curved, tapered body. `limit_s` stands beside what is
// promised; the last benchmarks are measured limits: the distances alone that trimming has to ask for.
#include "crushwright/catalogue.hpp"
#include "crushwright/lattice_body.hpp"
#include "surface/surface_probe.hpp"

#include <benchmark/benchmark.h>
#include <sys/resource.h>
#include <tbb/parallel_for.h>

#include <cmath>
#include <filesystem>
#include <numbers>

namespace {

using namespace crushwright;
using Point = std::array<double, 3>;

const UnitCell& octet() {
  static const Catalogue shipped({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
  return shipped.cell("octet");
}

constexpr double length = 0.520;

/// Invented: an oval that grows from 130 mm x 160 mm to 170 mm x 220 mm on a bowed centre line. `around` points a
/// ring, twice as many triangles for each step along.
TriangleMesh oval_body(int along, int around) {
  TriangleMesh mesh;
  for (int i = 0; i <= along; ++i) {
    const double part = double(i) / along;
    for (int k = 0; k < around; ++k) {
      const double angle = 2 * std::numbers::pi * k / around;
      mesh.points.push_back({part * length,
                             0.03 * std::sin(std::numbers::pi * part) + (0.065 + 0.020 * part) * std::cos(angle),
                             (0.080 + 0.030 * part) * std::sin(angle)});
    }
  }
  const auto place = [&](int i, int k) { return std::int32_t(i * around + k % around); };
  for (int i = 0; i < along; ++i)
    for (int k = 0; k < around; ++k) {
      mesh.triangles.push_back({place(i, k), place(i, k + 1), place(i + 1, k)});
      mesh.triangles.push_back({place(i, k + 1), place(i + 1, k + 1), place(i + 1, k)});
    }
  for (const int end : {0, along}) {
    const auto middle = std::int32_t(mesh.points.size());
    const double part = double(end) / along;
    mesh.points.push_back({part * length, 0.03 * std::sin(std::numbers::pi * part), 0});
    for (int k = 0; k < around; ++k)
      mesh.triangles.push_back(end == 0 ? std::array{middle, place(end, k + 1), place(end, k)}
                                        : std::array{middle, place(end, k), place(end, k + 1)});
  }
  return mesh;
}

const TriangleMesh& body() {
  static const TriangleMesh mesh = oval_body(200, 120); // 48,240 triangles
  return mesh;
}

LatticePlacement placement() {
  PlacementChoice choice;
  choice.cell_edge = 6.6e-3;
  choice.length = length;
  choice.middle = {0.03, 0};
  return place_lattice(choice);
}

TrimOptions behind_a_skin() {
  TrimOptions options;
  options.inset = 1.5e-3;
  options.skin = true;
  return options;
}

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return double(usage.ru_maxrss) / 1024;
}

void octet_trimmed_behind_a_skin(benchmark::State& state) {
  TrimmedLattice trimmed;
  for (auto _ : state)
    trimmed = trim_struts(octet(), placement(), graded_size(0.5e-3, 0.8e-3, length), body(), behind_a_skin());
  state.counters["whole_cells"] = double(trimmed.whole_cells);
  state.counters["cut_cells"] = double(trimmed.cut_cells);
  state.counters["struts"] = double(trimmed.body.struts.size());
  state.counters["peak_MB"] = peak_megabytes();
  state.counters["limit_s"] = 5;
}
BENCHMARK(octet_trimmed_behind_a_skin)
    ->Unit(benchmark::kSecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1);

void octet_trimmed_without_a_skin(benchmark::State& state) {
  TrimmedLattice trimmed;
  for (auto _ : state)
    trimmed = trim_struts(octet(), placement(), graded_size(0.5e-3, 0.8e-3, length), body(), {});
  state.counters["struts"] = double(trimmed.body.struts.size());
  state.counters["peak_MB"] = peak_megabytes();
  state.counters["limit_s"] = 5;
}
BENCHMARK(octet_trimmed_without_a_skin)
    ->Unit(benchmark::kSecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1);

void octet_trimmed_and_reported(benchmark::State& state) {
  FilledBody filled;
  for (auto _ : state)
    filled = fill_with_struts(octet(), placement(), graded_size(0.5e-3, 0.8e-3, length), body(), behind_a_skin());
  const FillReport& report = filled.report;
  state.counters["peak_MB"] = peak_megabytes();
  state.counters["metal_over_estimate"] = report.metal_inside.value / report.estimated;
  state.counters["metal_error"] = report.metal_inside.error / report.metal_inside.value;
}
BENCHMARK(octet_trimmed_and_reported)
    ->Unit(benchmark::kSecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1);

/// Limit: a million distances at points within a cell of the surface, on every core.
void limit_million_distances_near_the_surface(benchmark::State& state) {
  const SurfaceProbe probe(body());
  std::vector<double> sums(1000);
  for (auto _ : state)
    tbb::parallel_for(std::size_t{0}, sums.size(), [&](std::size_t block) {
      double sum = 0;
      for (std::size_t i = 0; i < 1000; ++i) {
        const Point& on = body().points[(block * 1000 + i) % body().points.size()];
        const double off = 1 - 0.01 * double(i % 7);
        sum += probe.signed_distance({on[0], on[1] * off, on[2] * off});
      }
      sums[block] = sum;
    });
  benchmark::DoNotOptimize(sums.data());
}
BENCHMARK(limit_million_distances_near_the_surface)
    ->Unit(benchmark::kSecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1);

} // namespace
