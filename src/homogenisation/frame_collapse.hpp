#pragma once
#include "crushwright/unit_cell.hpp"
#include "homogenisation/hinged_frame.hpp"

#include <Eigen/Core>

namespace crushwright {

/// The hinged frame of a catalogue cell, checked.
/// @throws OutOfDomain for a cell that is not of struts or a size ratio outside its range.
HingedFrame hinged_frame_of(const UnitCell& cell, double size_ratio);

/// A direction of length 1.
/// @throws OutOfDomain for one that is zero or not finite.
Eigen::Vector3d unit_direction(const Eigen::Vector3d& direction);

} // namespace crushwright
