#pragma once
#include "crushwright/crash_case.hpp"
#include "crushwright/estimate.hpp"

#include <string>

namespace crushwright {

/// "Fail: 1 of 8 limits fails at nominal, 2 are open." in one sentence.
std::string verdict_sentence(const Verdict& verdict);

/// Which check governs, on which side, by how much. Empty when there is no check.
std::string governing_sentence(const Verdict& verdict);

/// "peak force of left in full_width": what is limited, and in which impact.
std::string limited_thing(const Limit& limit);

/// "at most 95 kN".
std::string limit_text(const Limit& limit);

/// "97.9 kN", "none", and "bottoms out" where the side bottomed.
std::string side_text(const std::optional<double>& value, bool bottomed, LimitedQuantity quantity);

/// Scatter set in words: id, description, level.
std::string scatter_sentence(const CrashCase& crash_case, const std::string& scatter_set);

/// Whether a check could be given a value on any side.
bool has_value(const Check& check);

/// What ends the stroke, what is used up first: one sentence on a structure's nominal run.
std::string stroke_sentence(const StructureOutcome& outcome);

/// The run of an impact on a side, combined scatter. @throws std::out_of_range when the impact has none.
const RunOutcome& run_on(const ImpactOutcome& impact, Side side);

/// What is not claimed and who decides; two sentences, the same on the page and in the terminal.
std::string caution_not_claimed();
std::string caution_defer();

} // namespace crushwright
