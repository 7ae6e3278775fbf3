#pragma once
#include "crushwright/correlation.hpp"

namespace crushwright {

/// Throws OutOfDomain unless x rises strictly, all is finite, and there are two points or more; `name` stands for the
/// curve in the message.
void require_curve(const SampledCurve& curve, const char* name);

/// Value of a polyline; `x` inside it.
double value_at(const SampledCurve& curve, double x);

/// The curve at equal steps from `from` to `to`, both included. samples >= 2.
SampledCurve on_grid(const SampledCurve& curve, double from, double to, std::size_t samples);

/// Area under the polyline between two places inside it.
double area(const SampledCurve& curve, double from, double to);

/// Each value the mean of the polyline over a window of this width about its place; narrower at the ends, so that it
/// stays inside and symmetric. width > 0.
SampledCurve smoothed(const SampledCurve& curve, double width);

} // namespace crushwright
