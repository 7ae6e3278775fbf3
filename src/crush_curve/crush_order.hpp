#pragma once
#include "crushwright/crush_curve.hpp"

#include <vector>

namespace crushwright {

/// Which layer begins to crush first (1), second, ...: by collapse force; of equal ones that nearer to the struck
/// end. shape = (number of layers)
std::vector<int> crush_order(const std::vector<Layer>& layers);

} // namespace crushwright
