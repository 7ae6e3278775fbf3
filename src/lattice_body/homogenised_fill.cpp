#include "lattice_body/homogenised_fill.hpp"

#include <Eigen/Dense>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

constexpr double undecided_parts = 5e4;
constexpr int fewest_halvings = 1, most_halvings = 6;

struct CutCell {
  const LatticeFrame& frame;
  const InnerRegion& region;
  const DensityAt& density;
  int halvings;

  void add(const Vector& middle, double edge, int level, HomogenisedFill& fill) const {
    const Vector point = frame.point(middle);
    const double size = edge * frame.edge, depth = -(region.level(point) + region.grain());
    double share = 0;
    if (std::abs(depth) >= size * std::sqrt(0.75))
      share = depth > 0 ? 1 : 0;
    else if (level == halvings)
      share = std::clamp(0.5 + depth / size, 0.0, 1.0);
    else {
      for (int part = 0; part < 8; ++part)
        add(middle + 0.25 * edge * Vector(part & 1 ? 1 : -1, part & 2 ? 1 : -1, part & 4 ? 1 : -1), 0.5 * edge,
            level + 1, fill);
      return;
    }
    if (share > 0) {
      const double volume = share * size * size * size;
      fill.room += volume;
      fill.metal += volume * density(point);
    }
  }
};

} // namespace

double over_cell(const LatticeFrame& frame, const Eigen::Vector3i& cell, const DensityAt& density) {
  const double off = 0.5 / std::sqrt(3.0);
  const Vector middle = cell.cast<double>().array() + 0.5;
  double sum = 0;
  for (int part = 0; part < 8; ++part)
    sum += density(frame.point(middle + off * Vector(part & 1 ? 1 : -1, part & 2 ? 1 : -1, part & 4 ? 1 : -1)));
  return sum / 8 * frame.edge * frame.edge * frame.edge;
}

HomogenisedFill homogenised_fill(const LatticeFrame& frame, const CellSurvey& survey, const InnerRegion& region,
                                 const std::vector<std::uint8_t>& core, const DensityAt& density) {
  const auto near_cells = std::count(survey.places.begin(), survey.places.end(), CellPlace::near_boundary);
  const double wanted =
      0.5 * std::log2(undecided_parts / static_cast<double>(std::max<std::ptrdiff_t>(near_cells, 1)));
  const CutCell cut{frame, region, density,
                    std::clamp(static_cast<int>(std::lround(wanted)), fewest_halvings, most_halvings)};
  const double volume = frame.edge * frame.edge * frame.edge;
  const std::size_t row = std::size_t(survey.block.count[0]);
  std::vector<HomogenisedFill> rows(survey.places.size() / row);
  tbb::parallel_for(std::size_t{0}, rows.size(), [&](std::size_t r) {
    for (std::size_t place = r * row; place < (r + 1) * row; ++place) {
      const Eigen::Vector3i cell = survey.block.low + survey.block.cell(place);
      if (survey.places[place] == CellPlace::near_boundary)
        cut.add(cell.cast<double>().array() + 0.5, 1, 0, rows[r]);
      if (survey.places[place] != CellPlace::inside)
        continue;
      const double metal = over_cell(frame, cell, density);
      rows[r].room += volume;
      rows[r].metal += metal;
      rows[r].core_metal += core[place] ? metal : 0;
    }
  });
  HomogenisedFill total;
  for (const HomogenisedFill& part : rows) {
    total.room += part.room;
    total.metal += part.metal;
    total.core_metal += part.core_metal;
  }
  return total;
}

} // namespace crushwright
