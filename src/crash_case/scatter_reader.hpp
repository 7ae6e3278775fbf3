#pragma once
#include "crushwright/crash_case.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// The scatters used where the user has none: handbook priors, common practice or memory (docs/method/scatter.md).
ScatterSet handbook_scatter();

/// Reads the `scatter` block into level, sets and the deciding set; without a block, the handbook set alone.
void read_scatter(const Mapping& root, CrashCase& crash_case);

/// One-sided tolerance factors of the scatters that were counted, at this level and confidence.
void set_tolerance_factors(double level, double confidence, ScatterSet& set);

} // namespace crushwright
