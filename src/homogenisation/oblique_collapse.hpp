#pragma once
#include "crushwright/unit_cell.hpp"
#include "homogenisation/limit_analysis.hpp"

#include <Eigen/Core>

#include <vector>

namespace crushwright {

/// How a layer of a crushed body may move sideways. docs/method/oblique.md.
enum class Sides {
  free, ///< no stress across the crush axis: a body without a skin
  held  ///< no strain across the crush axis: a layer that crushes between layers that stand
};

/// Compression of size 1 along a direction and, on the planes across it, a shear stress along another.
/// @param along  unit vector   @param across  unit vector at right angles to it   @return shape = (6)
Voigt oblique_stress(const Eigen::Vector3d& along, const Eigen::Vector3d& across, double shear);

/// Two unit vectors at right angles to a direction and to each other: cell edges where the direction is one.
std::vector<Eigen::Vector3d> lateral_axes(const Eigen::Vector3d& direction);

/// Axial collapse stress of a frame under an axial stress and `tangent` times as much shear, over the yield stress;
/// lower bound.
/// @param gap  (upper − lower) / lower to stop at [-], > 0
double oblique_collapse(const HingedFrame& frame, const Eigen::Vector3d& along, const Eigen::Vector3d& across,
                        double tangent, Sides sides, double gap = 0.002);

/// Collapse stress of a frame under shear alone, sides free, over the yield stress; lower bound.
double shear_collapse(const HingedFrame& frame, const Eigen::Vector3d& along, const Eigen::Vector3d& across);

/// Axial collapse stress under a force at an angle, over that of the same cell with free sides under a force along
/// the direction [-]. 1 exactly at angle 0.
struct ObliqueCollapse {
  std::vector<double> low;  ///< sides free; least over both lateral axes and both senses of the shear; as the angles
  std::vector<double> high; ///< the same, greatest; where sides that are held would carry more, that, up to 1
};
/// @param angles  of the force to the direction [rad], in [0, π/3], rising
/// @throws OutOfDomain as hinged_frame_of, for a direction without length, an angle outside the range or order.
ObliqueCollapse frame_oblique_collapse(const UnitCell& cell, double size_ratio, const Eigen::Vector3d& direction,
                                       const std::vector<double>& angles);

/// Shear collapse stress over the axial one, sides free, the lower of both lateral axes [-].
double frame_shear_ratio(const UnitCell& cell, double size_ratio, const Eigen::Vector3d& direction);

} // namespace crushwright
