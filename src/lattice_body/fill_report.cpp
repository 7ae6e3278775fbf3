#include "lattice_body/homogenised_fill.hpp"
#include "lattice_body/node_overlap.hpp"
#include "lattice_body/strut_fill.hpp"
#include "lattice_body/strut_union.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

constexpr double metal_samples = 2e6;

double at(const SizeAt& size, const Vector& point) {
  return size({point.x(), point.y(), point.z()});
}

/// Whole cells inside, with nothing but such cells around them, so that nothing at the surface reaches in.
std::vector<std::uint8_t> core_of(const StrutFill& fill) {
  const CellBlock& block = fill.survey.block;
  const auto sound = [&](const Eigen::Vector3i& cell) {
    return block.holds(cell) && fill.whole[block.place(cell)] &&
           fill.survey.places[block.place(cell)] == CellPlace::inside;
  };
  std::vector<std::uint8_t> core(block.size(), 0);
  for (std::size_t place = 0; place < block.size(); ++place) {
    const Eigen::Vector3i cell = block.cell(place);
    bool all = sound(cell);
    for (int copy = 0; copy < 27 && all; ++copy)
      all = sound(cell + Eigen::Vector3i(copy % 3 - 1, copy / 3 % 3 - 1, copy / 9 - 1));
    core[place] = all ? 1 : 0;
  }
  return core;
}

SiteOf site_of(const StrutFill& fill, const InnerRegion& region, const std::vector<std::uint8_t>& core) {
  return [&fill, &region, &core](const Vector& point, NearestLevel& known) -> SampleSite {
    const CellBlock& block = fill.survey.block;
    const Eigen::Vector3i cell = fill.frame.in_cells(point).array().floor().cast<int>() - block.low.array();
    if (!block.holds(cell))
      return {};
    const std::size_t place = block.place(cell);
    if (fill.survey.places[place] == CellPlace::near_boundary) {
      // The level changes by no more than the way from where it was last asked for, so most samples need not ask.
      if ((point - known.point).norm() >= std::abs(known.level))
        known = {point, region.level(point) + region.grain()};
      return {known.level <= 0, false};
    }
    return {fill.survey.places[place] == CellPlace::inside, core[place] != 0};
  };
}

/// What grading within the cells does to the core: bars linear between the nodes, less their overlaps at the nodes,
/// against the same two terms of the size at each point. The catalogue has no part in it.
class Grading {
public:
  explicit Grading(const RepeatingStruts& lattice) : lattice_(lattice) {
    for (std::size_t node = 0; node < lattice.nodes.size(); ++node)
      overlaps_.push_back(node_overlap(lattice.directions_at(static_cast<int>(node))));
    for (const RepeatingStrut& strut : lattice.struts)
      bars_ += std::numbers::pi / 4 * lattice.length(strut);
    for (const double overlap : overlaps_)
      nodes_ += overlap / 8;
  }

  double of_cell(const LatticeFrame& frame, const Eigen::Vector3i& cell, const SizeAt& size) const {
    const double pointwise = over_cell(frame, cell, [&](const Vector& point) {
      const double ratio = at(size, point) / frame.edge;
      return ratio * ratio * (bars_ - nodes_ * ratio);
    });
    double real = 0;
    for (const InClosedCell& in : lattice_.closed_struts) {
      const RepeatingStrut& strut = lattice_.struts[std::size_t(in.place)];
      const Vector owner = (cell + in.shift).cast<double>();
      const double d = at(size, frame.point(owner + lattice_.end(strut, false)));
      const double e = at(size, frame.point(owner + lattice_.end(strut, true)));
      real += in.share * std::numbers::pi / 12 * (d * d + d * e + e * e) * frame.edge * lattice_.length(strut);
    }
    for (const InClosedCell& in : lattice_.closed_nodes) {
      const Vector node = (cell + in.shift).cast<double>() + lattice_.nodes[std::size_t(in.place)];
      const double d = at(size, frame.point(node));
      real -= in.share * overlaps_[std::size_t(in.place)] / 8 * d * d * d;
    }
    return real - pointwise;
  }

private:
  const RepeatingStruts& lattice_;
  std::vector<double> overlaps_;
  double bars_ = 0, nodes_ = 0;
};

double grading_of(const StrutFill& fill, const std::vector<std::uint8_t>& core, const SizeAt& size) {
  const Grading grading(fill.lattice);
  double sum = 0;
  for (std::size_t place = 0; place < core.size(); ++place)
    if (core[place])
      sum += grading.of_cell(fill.frame, fill.survey.block.low + fill.survey.block.cell(place), size);
  return sum;
}

void add_counts(const TrimmedLattice& trimmed, FillReport& report) {
  report.whole_cells = trimmed.whole_cells;
  report.cut_cells = trimmed.cut_cells;
  report.cut_struts = trimmed.cut_struts;
  report.struts = static_cast<std::int64_t>(trimmed.body.struts.size());
  report.nodes = static_cast<std::int64_t>(trimmed.body.nodes.size());
  report.smallest_diameter = report.shortest_strut = std::numeric_limits<double>::infinity();
  for (const BodyStrut& strut : trimmed.body.struts) {
    const double length = length_of(trimmed.body, strut);
    report.strut_length += length;
    report.shortest_strut = std::min(report.shortest_strut, length);
    report.smallest_diameter = std::min({report.smallest_diameter, 2 * strut.from_radius, 2 * strut.to_radius});
    report.largest_diameter = std::max({report.largest_diameter, 2 * strut.from_radius, 2 * strut.to_radius});
  }
}

} // namespace

FillReport fill_report(const UnitCell& cell, const StrutFill& fill, const SizeAt& size, const InnerRegion& region) {
  FillReport report;
  add_counts(fill.trimmed, report);
  const std::vector<std::uint8_t> core = core_of(fill);
  const UnionVolumes metal = union_volumes(fill.trimmed.body, site_of(fill, region, core), metal_samples);
  report.metal = metal.all;
  report.metal_inside = metal.inside;
  const HomogenisedFill homogenised =
      homogenised_fill(fill.frame, fill.survey, region, core, [&](const Vector& point) {
        return relative_density(cell, at(size, point) / fill.frame.edge);
      });
  report.room = homogenised.room;
  report.estimated = homogenised.metal;
  const TrimmedLattice& trimmed = fill.trimmed;
  FillDifference& difference = report.difference;
  difference.grading = grading_of(fill, core, size);
  difference.method = metal.core.value - homogenised.core_metal - difference.grading;
  difference.short_pieces = -trimmed.short_pieces.volume;
  difference.fragments = -trimmed.in_fragments.volume;
  difference.loose_ends = trimmed.ties.volume - trimmed.loose.volume;
  difference.cut_cells = metal.inside.value - homogenised.metal - difference.total();
  return report;
}

} // namespace crushwright
