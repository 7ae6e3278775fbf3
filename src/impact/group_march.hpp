#pragma once
#include "crushwright/impact.hpp"

namespace crushwright {

/// Marches a group of any make-up: several lines, staggered tips, elements in series. Appends as append_group_motion.
void append_group_march(const Group& group, std::size_t index, ImpactMotion& motion);

} // namespace crushwright
