#pragma once
#include "crushwright/envelope.hpp"

#include <array>
#include <vector>

namespace crushwright {

/// Measures the loops of one cut: area without holes, all loops' perimeter and offset term, folding corners of all,
/// the largest loop's smallest width, the area's centroid.
/// @param loops  as cuts_across gives them: outer ones counter-clockwise, holes clockwise, the largest first; not
/// empty.
SlicedFigure sliced_figure(std::vector<std::vector<std::array<double, 2>>> loops);

} // namespace crushwright
