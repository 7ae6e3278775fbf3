#pragma once
#include "crushwright/unit_cell.hpp"

#include <optional>
#include <utility>

namespace crushwright {

/// The same strut moved by whole cells so that its middle lies in [0, 1)^3, ends in rising order; coordinates are on
/// a grid of 1e-6 cell edges so that two copies of one strut compare equal.
Strut folded_strut(const Strut& strut);

/// Places (0-based) of two struts that are one and the same up to whole cells; absent when all are distinct.
std::optional<std::pair<std::size_t, std::size_t>> repeated_strut(const std::vector<Strut>& struts);

/// Length over cell edge [-].
double strut_length(const Strut& strut);

} // namespace crushwright
