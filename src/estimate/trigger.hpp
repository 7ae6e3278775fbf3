#pragma once
#include "crushwright/estimate.hpp"
#include "estimate/ingredients.hpp"

#include <string>
#include <vector>

namespace crushwright {

// How the crush starts: weakened first rows, and the peaks that rows take to begin; docs/method/cell_loading.md.

/// Length of the trigger from the struck end [m]; 0 without one.
double trigger_length(const StructureInput& input);

/// Writes the trigger into skin and lattice.
/// @throws InputError at the case's line when it is too short for a layer of its own.
void set_trigger(const CrashCase& crash_case, const StructureInput& input, Ingredients& from);

/// Peak of the layer that starts first: the lattice's own ratio, and the skin's squash load when no ratio is stated.
FirstPeak first_peak(const Ingredients& from, const std::vector<Layer>& layers, std::vector<std::string>& warnings);

/// Peaks of the layers that start afresh later and that no higher peak before them has started.
std::vector<LaterPeak> later_peaks(const Ingredients& from, const std::vector<Layer>& layers, const FirstPeak& first);

/// Where the rows stand that start with these peaks, and after which crush; as `peaks`.
std::vector<RowStart> row_starts(const std::vector<Layer>& layers, const std::vector<LaterPeak>& peaks);

/// What the trigger does. @param untriggered  the same structure without it.
TriggerEffect trigger_effect(const StructureModel& untriggered, const StructureModel& triggered);

} // namespace crushwright
