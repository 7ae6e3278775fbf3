#pragma once
#include "verdict/run_view.hpp"

namespace crushwright {

/// The worst over the structures that are struck; absent without column figures, or without bolts for bolts.
std::optional<double> column_measure(const Limit& limit, const RunView& run);

/// Frequency, service use or fatigue damage: what a structure has whatever hits it. Absent while one is open.
std::optional<double> standing_measure(const Limit& limit, const std::vector<const StructureView*>& structures);

} // namespace crushwright
