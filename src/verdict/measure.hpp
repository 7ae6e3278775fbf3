#pragma once
#include "verdict/run_view.hpp"

namespace crushwright {

/// The value of a limit's quantity in a run [SI]; absent when the run cannot give it.
std::optional<double> measure(const Limit& limit, const RunView& run);

} // namespace crushwright
