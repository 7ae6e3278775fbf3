#pragma once
#include "crushwright/impact.hpp"

namespace crushwright {

/// Marches one group from contact to separation.
///
/// Appends its motion to `motion.groups` and that of its structures to `motion.columns`.
/// @param index  of the group in the impact.
void append_group_motion(const Group& group, std::size_t index, ImpactMotion& motion);

} // namespace crushwright
