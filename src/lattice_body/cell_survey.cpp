#include "lattice_body/cell_survey.hpp"

#include "crushwright/errors.hpp"

#include <Eigen/Dense>
#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;
using Cell = Eigen::Vector3i;

constexpr int block_edge = 8;
constexpr double most_nodes = 1e8; // of all cells in the bounds: under 1 GB, and well inside 32 bits

CellBlock block_around(const LatticeFrame& frame, double nodes_of_a_cell, const Vector& low, const Vector& high) {
  Vector least = Vector::Constant(1e300), most = -least;
  for (int corner = 0; corner < 8; ++corner) {
    const Vector in_cells = frame.in_cells(
        {corner & 1 ? high.x() : low.x(), corner & 2 ? high.y() : low.y(), corner & 4 ? high.z() : low.z()});
    least = least.cwiseMin(in_cells);
    most = most.cwiseMax(in_cells);
  }
  // One more cell each way: its neighbours' struts may lie in a face that they share.
  const Vector first = least.array().floor() - 1, last = most.array().ceil() + 1;
  const double cells = (last - first).prod();
  if (!(cells * nodes_of_a_cell <= most_nodes))
    throw OutOfDomain(fmt::format("the body's bounds hold {:.3g} cells of {:g} m; at most {:.3g} of this kind can be "
                                  "trimmed: take larger cells, or check the units of the surface",
                                  cells, frame.edge, most_nodes / nodes_of_a_cell));
  return {first.cast<int>(), (last - first).cast<int>()};
}

/// Tells blocks of cells, halving those that one distance does not tell.
struct Surveyor {
  const LatticeFrame& frame;
  const InnerRegion& region;
  double overhang; ///< of struts beyond their cell's own reach [cell edges]
  CellSurvey& survey;

  void fill(const Cell& first, const Cell& last, CellPlace place) const {
    for (int z = first[2]; z < last[2]; ++z)
      for (int y = first[1]; y < last[1]; ++y)
        for (int x = first[0]; x < last[0]; ++x)
          survey.places[survey.block.place({x, y, z})] = place;
  }

  void tell(const Cell& first, const Cell& last) const {
    const Vector size = (last - first).cast<double>();
    const Vector middle = (survey.block.low + first).cast<double>() + 0.5 * size;
    const double level = region.level(frame.point(middle));
    if (std::abs(level) > frame.edge * (0.5 * size.norm() + overhang)) {
      fill(first, last, level < 0 ? CellPlace::inside : CellPlace::outside);
      return;
    }
    if (size.maxCoeff() <= 1) {
      fill(first, last, CellPlace::near_boundary);
      return;
    }
    const Cell half = first + ((last - first) / 2).cwiseMax(1);
    for (int part = 0; part < 8; ++part) {
      Cell from = first, to = half;
      for (int axis = 0; axis < 3; ++axis)
        if (part >> axis & 1) {
          from[axis] = half[axis];
          to[axis] = last[axis];
        }
      if ((to.array() > from.array()).all())
        tell(from, to);
    }
  }
};

} // namespace

LatticeFrame::LatticeFrame(const LatticePlacement& placement)
    : edge(placement.cell_edge), origin(placement.origin[0], placement.origin[1], placement.origin[2]) {
  for (int axis = 0; axis < 3; ++axis)
    axes.col(axis) = Vector(placement.axes[std::size_t(axis)].data());
  if (!(edge > 0 && std::isfinite(edge)))
    throw OutOfDomain(fmt::format("the cell edge is {:g} m; expected more than 0", edge));
  if (!origin.allFinite() || !((axes.transpose() * axes - Eigen::Matrix3d::Identity()).norm() < 1e-9))
    throw OutOfDomain("the lattice's axes are not three unit vectors at right angles, or its origin is no point");
}

Cell CellBlock::cell(std::size_t place) const {
  const auto nx = std::size_t(count[0]), ny = std::size_t(count[1]);
  return {int(place % nx), int(place / nx % ny), int(place / (nx * ny))};
}

CellSurvey survey_cells(const LatticeFrame& frame, const RepeatingStruts& lattice, const InnerRegion& region,
                        const Vector& low, const Vector& high) {
  CellSurvey survey;
  survey.block = block_around(frame, static_cast<double>(lattice.nodes.size()), low, high);
  survey.places.assign(survey.block.size(), CellPlace::outside);
  const Cell blocks = (survey.block.count.array() + block_edge - 1) / block_edge;
  const CellBlock grid{Cell::Zero(), blocks};
  const Surveyor surveyor{frame, region, std::max(0.0, lattice.reach - std::sqrt(0.75)), survey};
  tbb::parallel_for(std::size_t{0}, grid.size(), [&](std::size_t place) {
    const Cell first = block_edge * grid.cell(place);
    surveyor.tell(first, (first.array() + block_edge).matrix().cwiseMin(survey.block.count));
  });
  return survey;
}

} // namespace crushwright
