#pragma once
#include "crushwright/cell_report.hpp"

#include <string>

namespace crushwright {

/// The report of `cell` for a terminal, at most 100 columns: density and size, stiffness by direction, collapse, the
/// solid where one was computed, the evidence side by side with the used one marked, fitted laws, what to beware of.
/// Plain UTF-8 text, ends with a line feed.
std::string cell_text(const CellReport& report);

} // namespace crushwright
