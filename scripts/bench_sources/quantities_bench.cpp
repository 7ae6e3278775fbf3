#include "quantities/units.hpp"

#include <benchmark/benchmark.h>

namespace {

void reading_a_stress(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(crushwright::parse_value("275 MPa", crushwright::Dimension::stress));
  }
}
BENCHMARK(reading_a_stress);

void showing_a_force(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(crushwright::show(43210.0, crushwright::Dimension::force));
  }
}
BENCHMARK(showing_a_force);

} // namespace
