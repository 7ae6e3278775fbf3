#pragma once
#include <cstddef>
#include <vector>

namespace crushwright {

/// Mean of the finite values in the square of (2 reach + 1) pixels about each pixel, by columns within rows; where no
/// value about it is finite, its own. Time does not grow with the reach.
/// @param values  shape = (height, width), as the result
std::vector<float> mean_about(const std::vector<float>& values, std::size_t width, int reach);

} // namespace crushwright
