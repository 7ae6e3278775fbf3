#pragma once
#include "load_path/bearing.hpp"

namespace crushwright {

/// A block, an attachment or the rest of a body that has used up its room goes on with this slope times its force
/// there over what is left of it (a block) or over its room: its force has doubled after a thousandth of that.
/// Our choice: stiff beside any structure, and finite, as the motion needs it.
inline constexpr double lock_slope_factor = 1000;

/// The end of a stated interval.
double at_end(const Quantity& quantity, SeriesEnd end);

/// Pressure on the largest part of the structure's sections, tip to penetration depth, that lies inside the window.
CrushCurve imprint_curve(const FaceBlock& block, const Window& window, const StructurePlace& structure,
                         SeriesEnd end);

/// Pressure on the whole window.
CrushCurve plate_curve(const FaceBlock& block, const Window& window, SeriesEnd end);

/// @throws OutOfDomain when it would lock before it crushes; as the next.
CrushCurve attachment_curve(const AttachmentInput& attachment, SeriesEnd end);
CrushCurve rest_of_body_curve(const RestOfBodyInput& rest, SeriesEnd end);

} // namespace crushwright
