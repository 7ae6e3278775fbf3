#pragma once
#include "crushwright/printability.hpp"
#include "printability/vector.hpp"

#include <vector>

namespace crushwright {

/// Points that reach as far as the body along the direction and its two axes across: corners of its surface, or
/// without one the balls at the ends of its struts. @throws OutOfDomain when there is none.
std::vector<Vector> extreme_points(const PrintedBody& body, const Vector& direction);

double lowest_along(const std::vector<Vector>& points, const Vector& direction);

} // namespace crushwright
