// Speeds of what goes to a printer. `limit_s` stands beside what is promised. Measured beside the 3MF file: deflating
// its finished text alone, below which no writer with that compression can go.
#include "crushwright/catalogue.hpp"
#include "crushwright/exchange.hpp"
#include "exchange/print_model.hpp"
#include "exchange/zip_archive.hpp"
#include "lattice_body/body_mesh.hpp"

#include <benchmark/benchmark.h>

#include <sys/resource.h>

namespace {

using namespace crushwright;

/// Nodes 4 mm apart joined along the axes, 70 × 70 × 70: a million beams.
const StrutBody& million_beams() {
  static const StrutBody body = [] {
    constexpr int n = 70;
    StrutBody made;
    const auto place = [](int x, int y, int z) { return (z * n + y) * n + x; };
    for (int z = 0; z < n; ++z)
      for (int y = 0; y < n; ++y)
        for (int x = 0; x < n; ++x) {
          // Places off a plain grid, as a turned and graded lattice has them; plain ones deflate too well.
          made.nodes.push_back({0.00399123 * x + 0.00012345 * y, 0.00400789 * y - 0.0002311 * z, 0.0040123 * z});
          const double radius = 0.0004 + 1e-7 * (x + 2 * y + 3 * z);
          if (x + 1 < n)
            made.struts.push_back({place(x, y, z), place(x + 1, y, z), radius, radius + 1e-7});
          if (y + 1 < n)
            made.struts.push_back({place(x, y, z), place(x, y + 1, z), radius, radius + 2e-7});
          if (z + 1 < n)
            made.struts.push_back({place(x, y, z), place(x, y, z + 1), radius, radius + 3e-7});
        }
    return made;
  }();
  return body;
}

/// Of this process until now [MB].
double peak_memory() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return double(usage.ru_maxrss) / 1024;
}

void print_file_of_a_million_beams(benchmark::State& state) {
  const StrutBody& body = million_beams();
  std::size_t bytes = 0;
  for (auto _ : state)
    bytes = write_3mf(body, {}, {"bench", "lattice", ""}).size();
  state.counters["beams"] = double(body.struts.size());
  state.counters["file_MB"] = double(bytes) / 1e6;
  state.counters["peak_MB"] = peak_memory();
  state.counters["limit_s"] = 10;
}
BENCHMARK(print_file_of_a_million_beams)->Unit(benchmark::kMillisecond);

void deflating_that_text_alone(benchmark::State& state) {
  const ZipPart part{"3D/3dmodel.model", model_of_struts(million_beams(), {}, {"bench", "lattice", ""})};
  for (auto _ : state)
    benchmark::DoNotOptimize(zip_archive({part}).size());
  state.counters["text_MB"] = double(part.bytes.size()) / 1e6;
}
BENCHMARK(deflating_that_text_alone)->Unit(benchmark::kMillisecond);

void gyroid_cell_on_128_cubed(benchmark::State& state) {
  const Catalogue catalogue({std::string(CRUSHWRIGHT_SOURCE_DIR) + "/lattices"});
  const UnitCell& cell = catalogue.cell("gyroid_sheet");
  BodyMeshOptions options;
  options.spacing = 0.01 / 128;
  BodyPart part;
  for (auto _ : state)
    part = mesh_cell(cell, 0.06, 0.01, options);
  state.counters["triangles"] = double(part.mesh.triangles.size());
  state.counters["off_the_curve_%"] = 100 * (part.volume / 1e-6 / relative_density(cell, 0.06) - 1);
  state.counters["peak_MB"] = peak_memory();
  state.counters["limit_s"] = 10;
}
BENCHMARK(gyroid_cell_on_128_cubed)->Unit(benchmark::kMillisecond);

} // namespace
