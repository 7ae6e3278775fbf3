#pragma once
#include "crushwright/crush_curve.hpp"

#include <vector>

namespace crushwright {

/// Puts later peaks over a curve; docs/method/cell_loading.md.
/// @param series  the layers in series without any peak, which says where each peak starts.
/// @throws OutOfDomain when a peak has no crush to die out over.
CrushCurve with_later_peaks(const CrushCurve& curve, const CrushCurve& series, const std::vector<LaterPeak>& peaks);

} // namespace crushwright
