#pragma once
#include "crushwright/crash_case.hpp"
#include "crushwright/estimate.hpp"

#include <string>

namespace crushwright {

/// "1 of 8 limits fails at nominal; 2 more are open." in one sentence, to stand after the word.
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

/// Stroke left and what is used up first: one sentence on a structure's run.
std::string stroke_sentence(const StructureOutcome& outcome);

/// Structures of a run that did the same (mirrors under equal shares), named together.
struct OutcomeGroup {
  std::string structures; ///< "left, right"
  const StructureOutcome* outcome;
  std::size_t first; ///< index of the first of them in the run
};
std::vector<OutcomeGroup> grouped_outcomes(const RunOutcome& run);

/// What ends the stroke of each structure at nominal, each sentence once.
std::vector<std::string> stroke_ends(const Estimate& estimate);

/// "With the scatter set handbook: open. No limit fails at nominal, but ...", one sentence pair for each other set.
std::vector<std::string> other_set_sentences(const Estimate& estimate);

/// The worst of the check's values with all independent scatters at their worst together; none when one is missing.
std::optional<double> worst_stacked(const Check& check);

/// "holds" or "misses" with all independent scatters at their worst together; "none" without a value.
std::string stacked_word(const Check& check);

/// What the stacked values are and that they do not decide.
std::string stacked_meaning();

/// Whether weak, nominal and strong are one number, as for a mass.
bool same_on_every_side(const Check& check);

/// The run of an impact on a side, combined scatter. @throws std::out_of_range when the impact has none.
const RunOutcome& run_on(const ImpactOutcome& impact, Side side);

/// What is not claimed and who decides; two sentences, the same on the page and in the terminal.
std::string caution_not_claimed();
std::string caution_defer();

} // namespace crushwright
