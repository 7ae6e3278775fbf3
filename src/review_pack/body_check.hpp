#pragma once
#include "review_pack/body_drawing.hpp"

namespace crushwright {

/// The body's shape without the parts that hold nothing.
/// @throws OutOfDomain as body_pictures_html
BodyShape checked_shape(const BodyDrawing& body);

} // namespace crushwright
