#pragma once
#include "crushwright/study.hpp"

#include <string>

namespace crushwright {

/// The report of `compare` for a terminal, at most 100 columns: what is lightest, each design at its own least mass,
/// the stated relative densities, the designs without a lattice, what to do next. Plain UTF-8 text, ends with a line
/// feed.
std::string comparison_text(const CrashCase& crash_case, const ComparisonResult& comparison);

} // namespace crushwright
