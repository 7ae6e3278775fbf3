#pragma once
#include "crushwright/lattice_body.hpp"
#include "lattice_body/inner_region.hpp"
#include "lattice_body/repeating_struts.hpp"

#include <Eigen/Core>

#include <cstdint>
#include <vector>

namespace crushwright {

/// A lattice's own frame: from cell edges to the structure's metres and back.
struct LatticeFrame {
  double edge = 1;
  Eigen::Vector3d origin;
  Eigen::Matrix3d axes; ///< columns

  /// @throws OutOfDomain for an edge that is not positive or axes that are not unit vectors at right angles
  explicit LatticeFrame(const LatticePlacement& placement);
  Eigen::Vector3d point(const Eigen::Vector3d& in_cells) const { return origin + edge * (axes * in_cells); }
  Eigen::Vector3d in_cells(const Eigen::Vector3d& point) const { return axes.transpose() * (point - origin) / edge; }
};

/// A block of cells, numbered x fastest.
struct CellBlock {
  Eigen::Vector3i low = Eigen::Vector3i::Zero(); ///< first cell
  Eigen::Vector3i count = Eigen::Vector3i::Zero();

  std::size_t size() const { return std::size_t(count[0]) * std::size_t(count[1]) * std::size_t(count[2]); }
  /// @param cell  counted from `low`
  std::size_t place(const Eigen::Vector3i& cell) const {
    return (std::size_t(cell[2]) * std::size_t(count[1]) + std::size_t(cell[1])) * std::size_t(count[0]) +
           std::size_t(cell[0]);
  }
  Eigen::Vector3i cell(std::size_t place) const;
  bool holds(const Eigen::Vector3i& cell) const {
    return (cell.array() >= 0).all() && (cell.array() < count.array()).all();
  }
};

/// Where a cell, with the struts that it owns, lies.
enum class CellPlace : std::uint8_t { outside, near_boundary, inside };

/// The cells that may meet a body.
struct CellSurvey {
  CellBlock block;
  std::vector<CellPlace> places; ///< shape = block.size()
};

/// Cells whose box overlaps a body's bounds, and which of them its boundary passes near: a cell told to be inside or
/// outside is so with all of its struts. Large blocks of cells are told by one distance where that is enough.
/// @throws OutOfDomain when there are more cells than can be numbered
CellSurvey survey_cells(const LatticeFrame& frame, const RepeatingStruts& lattice, const InnerRegion& region,
                        const Eigen::Vector3d& low, const Eigen::Vector3d& high);

} // namespace crushwright
