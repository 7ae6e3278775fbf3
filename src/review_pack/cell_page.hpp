#pragma once
#include "crushwright/cell_report.hpp"

#include <string>

namespace crushwright {

/// The page of one cell: drawing, figures, stiffness, collapse, curves, evidence and cautions in one self-contained
/// HTML document that reads nothing from the network. What the report does not hold is named as missing.
///
/// @param program_version  printed at the page's end.
/// @throws NotFinite when a number to be drawn is NaN or infinite; OutOfDomain when a stiffness in the report is not
///         positive definite.
std::string cell_page(const CellReport& report, const std::string& program_version);

} // namespace crushwright
