#pragma once
#include "crushwright/estimate.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// Warnings from a surface's reading and slicing, and of a body whose centroid line leaves the crush axis.
void describe_shape(StructureModel& model);

/// Warnings on ramps beyond their limit and on clearances before the crush.
void describe_packaging(StructureModel& model);

/// Warnings on clearances after the crush, of the deciding set: of each impact the worst side.
std::vector<std::string> warnings_of_clearances(const Estimate& estimate);

} // namespace crushwright
