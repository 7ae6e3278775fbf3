#include "unit_cell/body_volume.hpp"

#include "unit_cell/covered_fraction.hpp"

#include <tbb/parallel_for.h>

#include <cmath>
#include <numeric>

namespace crushwright {

double sampled_body_fraction(const SolidBody& body, int n) {
  const SampleGrid grid = SampleGrid::cube(n);
  const double half_width = boundary_half_width / n;
  std::vector<double> sums(static_cast<std::size_t>(body.layers(grid)), 0.0);
  tbb::parallel_for(std::size_t{0}, sums.size(), [&](std::size_t layer) {
    double sum = 0;
    body.visit_layer(grid, half_width, static_cast<int>(layer),
                     [&](std::size_t, double distance) { sum += covered_fraction(distance, half_width); });
    sums[layer] = sum;
  });
  return std::accumulate(sums.begin(), sums.end(), 0.0) / static_cast<double>(grid.size());
}

VolumeFraction body_fraction(const SolidBody& body, int n) {
  const int fine_cells = n * 3 / 2;
  return extrapolated(sampled_body_fraction(body, n), sampled_body_fraction(body, fine_cells), fine_cells);
}

} // namespace crushwright
