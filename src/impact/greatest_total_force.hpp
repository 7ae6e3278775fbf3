#pragma once
#include "crushwright/impact.hpp"

namespace crushwright {

/// Greatest total force between the bodies over time [N]; exact for equal columns, at piece ends otherwise.
double greatest_total_force(const ImpactMotion& motion);

} // namespace crushwright
