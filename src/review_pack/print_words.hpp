#pragma once
#include "crushwright/crash_case.hpp"
#include "crushwright/estimate.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// One printability figure of a structure, in words for page and terminal.
struct PrintLine {
  std::string what;
  std::string value;
  std::string against; ///< what the machine asks; empty where nothing is stated
};

/// The figures of a structure that has them, in the order of reports.
std::vector<PrintLine> print_lines(const CrashCase& crash_case, const StructureModel& structure);

/// The direction with less trouble, or that there is none; one sentence.
std::string direction_sentence(const StructureModel& structure);

/// Pieces and joints of a split part, a sentence each; empty for a part in one piece.
std::vector<std::string> split_sentences(const StructureModel& structure);

/// Whether any structure of an estimate has printability figures.
bool has_printing(const Estimate& estimate);

/// What printability leaves out, and the danger of powder.
std::string caution_printing();
std::string caution_powder();

} // namespace crushwright
