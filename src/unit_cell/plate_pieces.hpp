#pragma once
#include "crushwright/unit_cell.hpp"

#include <Eigen/Dense>

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace crushwright {

/// A plate prepared for many distance queries: all points no farther than half its thickness from its polygon.
struct PlatePiece {
  Eigen::Vector3d origin;
  Eigen::Matrix3d frame;                                       ///< rows: two directions in the plane, the normal
  std::shared_ptr<const std::vector<Eigen::Vector2d>> corners; ///< counter-clockwise in the plane
  double half_thickness = 0;

  /// Signed distance.
  double distance(const Eigen::Vector3d& p) const;
};

/// The plates and every periodic copy that comes within `reach` of the cell once it has its thickness.
std::vector<PlatePiece> plate_pieces(const std::vector<Plate>& plates, double size_ratio, double reach);

/// [cell edges²].
double plate_area(const Plate& plate);

/// What is wrong with a plate's corners, in words; absent when it is flat, convex and not degenerate.
std::optional<std::string> plate_fault(const Plate& plate);

/// Places (0-based) of two plates that are one and the same up to whole cells; absent when all are distinct.
std::optional<std::pair<std::size_t, std::size_t>> repeated_plate(const std::vector<Plate>& plates);

} // namespace crushwright
