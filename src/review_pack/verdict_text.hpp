#pragma once
#include "crushwright/crash_case.hpp"
#include "crushwright/estimate.hpp"

#include <string>

namespace crushwright {

/// The report for a terminal, at most 100 columns: verdict first, then checks, structures, impacts, what lies beyond
/// a pass, warnings, cautions. Plain UTF-8 text, no colour, ends with a line feed.
std::string verdict_text(const CrashCase& crash_case, const Estimate& estimate);

} // namespace crushwright
