#pragma once
#include "verdict/run_view.hpp"

namespace crushwright {

/// Times and costs add up, of the rest the worst counts: the smallest opening, the largest of everything else.
/// @return  absent where one of them fits the machine in no number of pieces.
std::optional<double> print_measure(const Limit& limit, const std::vector<const StructureView*>& structures);

} // namespace crushwright
