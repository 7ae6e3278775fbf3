// Speeds of a closed surface of a million triangles. `limit_s` stands beside what is promised. Measured beside them:
// reading all triangles and their corners once, below which no cut can go, and a general slicer on the same mesh and
// planes.
#include "crushwright/surface.hpp"
#include "surface/made_surfaces.hpp"
#include "surface/mesh_writer.hpp"
#include "surface/surface_cut.hpp"
#include "surface/surface_probe.hpp"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_slicer.h>
#include <CGAL/Surface_mesh.h>
#include <benchmark/benchmark.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <list>
#include <random>

namespace {

using namespace crushwright;

/// 6250 rings of 80 points: a million triangles.
const TriangleMesh& million_triangles() {
  static const TriangleMesh mesh = made_surfaces::knot({}, 6250, 80);
  return mesh;
}

const SurfaceProbe& probe_of_a_million() {
  static const SurfaceProbe probe(million_triangles());
  return probe;
}

std::vector<double> stations(int count) {
  const SurfaceBounds bounds = bounds_of(million_triangles());
  std::vector<double> places;
  for (int i = 0; i < count; ++i)
    places.push_back(bounds.low[0] + (i + 0.5) * bounds.size()[0] / count);
  return places;
}

/// Even in the box around the mesh.
std::vector<std::array<double, 3>> random_points(std::size_t count) {
  const SurfaceBounds bounds = bounds_of(million_triangles());
  std::mt19937 random(1);
  std::uniform_real_distribution<double> part(0, 1);
  std::vector<std::array<double, 3>> points(count);
  for (auto& point : points)
    for (std::size_t axis = 0; axis < 3; ++axis)
      point[axis] = bounds.low[axis] + part(random) * bounds.size()[axis];
  return points;
}

/// A binary STL file read, checked, and made one body.
void import_of_a_million_triangles(benchmark::State& state) {
  const std::filesystem::path file = std::filesystem::temp_directory_path() / "crushwright_surface_bench.stl";
  std::ofstream(file, std::ios::binary) << write_stl(million_triangles(), 1000, "invented");
  for (auto _ : state)
    benchmark::DoNotOptimize(import_surface(file, 1e-3).volume);
  std::filesystem::remove(file);
}
BENCHMARK(import_of_a_million_triangles)->Unit(benchmark::kSecond)->Iterations(1);

void two_hundred_cuts_of_a_million_triangles(benchmark::State& state) {
  const TriangleMesh& mesh = million_triangles();
  const std::vector<double> places = stations(200);
  std::size_t loops = 0;
  for (auto _ : state) {
    loops = 0;
    for (const SurfaceCut& cut : cuts_across(mesh, places))
      loops += cut.loops.size();
  }
  state.counters["loops"] = static_cast<double>(loops);
  state.counters["limit_s"] = 5;
}
BENCHMARK(two_hundred_cuts_of_a_million_triangles)->Unit(benchmark::kSecond);

void limit_reading_a_million_triangles(benchmark::State& state) {
  const TriangleMesh& mesh = million_triangles();
  for (auto _ : state) {
    double sum = 0;
    for (const auto& [a, b, c] : mesh.triangles)
      sum +=
          std::max({mesh.points[std::size_t(a)][0], mesh.points[std::size_t(b)][0], mesh.points[std::size_t(c)][0]});
    benchmark::DoNotOptimize(sum);
  }
}
BENCHMARK(limit_reading_a_million_triangles)->Unit(benchmark::kSecond);

void peer_general_slicer(benchmark::State& state) {
  using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
  using Surface = CGAL::Surface_mesh<Kernel::Point_3>;
  std::vector<Kernel::Point_3> points;
  for (const auto& [x, y, z] : million_triangles().points)
    points.emplace_back(x, y, z);
  Surface surface;
  CGAL::Polygon_mesh_processing::polygon_soup_to_polygon_mesh(points, million_triangles().triangles, surface);
  std::size_t loops = 0;
  for (auto _ : state) {
    loops = 0;
    const CGAL::Polygon_mesh_slicer<Surface, Kernel> slicer(surface);
    for (double station : stations(200)) {
      std::list<std::vector<Kernel::Point_3>> lines;
      slicer(Kernel::Plane_3(1, 0, 0, -station), std::back_inserter(lines));
      loops += lines.size();
    }
  }
  state.counters["loops"] = static_cast<double>(loops);
}
BENCHMARK(peer_general_slicer)->Unit(benchmark::kSecond)->Iterations(1);

void probe_made(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(SurfaceProbe(million_triangles()).inside({0, 0, 0}));
}
BENCHMARK(probe_made)->Unit(benchmark::kSecond)->Iterations(1);

void fifty_thousand_inside_tests(benchmark::State& state) {
  const SurfaceProbe& probe = probe_of_a_million();
  const auto points = random_points(50000);
  std::size_t inside = 0;
  for (auto _ : state) {
    inside = 0;
    for (const auto& point : points)
      inside += probe.inside(point) ? 1U : 0U;
  }
  state.counters["inside"] = static_cast<double>(inside);
}
BENCHMARK(fifty_thousand_inside_tests)->Unit(benchmark::kSecond);

/// Struts of a tenth of the box's longest side.
void a_million_segments(benchmark::State& state) {
  const SurfaceProbe& probe = probe_of_a_million();
  auto points = random_points(1000000);
  const double length = 0.1 * bounds_of(million_triangles()).size()[0];
  std::size_t crossings = 0;
  for (auto _ : state) {
    crossings = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
      auto to = points[i];
      to[i % 3] += length;
      crossings += probe.crossings(points[i], to).size();
    }
  }
  state.counters["crossings"] = static_cast<double>(crossings);
}
BENCHMARK(a_million_segments)->Unit(benchmark::kSecond)->Iterations(1);

void fifty_thousand_distances(benchmark::State& state) {
  const SurfaceProbe& probe = probe_of_a_million();
  const auto points = random_points(50000);
  benchmark::DoNotOptimize(probe.signed_distance(points[0]));
  for (auto _ : state)
    for (const auto& point : points)
      benchmark::DoNotOptimize(probe.signed_distance(point));
}
BENCHMARK(fifty_thousand_distances)->Unit(benchmark::kSecond);

} // namespace
