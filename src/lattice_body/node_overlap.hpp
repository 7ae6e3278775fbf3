#pragma once
#include <Eigen/Core>

#include <vector>

namespace crushwright {

/// What long round bars of one radius r that leave a node have in common, counted as often as it is counted too much:
/// the sum of their volumes less the volume of their union, over r³ [-]. docs/method/unit_cell.md, "The overlap at a
/// node".
/// @param directions  unit vectors away from the node, no two of them alike
double node_overlap(const std::vector<Eigen::Vector3d>& directions);

} // namespace crushwright
