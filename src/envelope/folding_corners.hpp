#pragma once
#include "envelope/polygon.hpp"

namespace crushwright {

/// Corners that a wall folds about: places where the outline turns by more than 20 degrees within a fortieth of its
/// length; docs/method/envelope.md says how facets of a curve are told from corners. A typed polygon is counted
/// corner by corner instead, in properties_of.
int folding_corners(const Polygon& loop);

/// The loop without the corners that lie within `deviation` [m] of a straight line through those that stay.
Polygon without_straight_corners(const Polygon& loop, double deviation);

} // namespace crushwright
