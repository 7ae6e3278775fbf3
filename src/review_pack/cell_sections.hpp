#pragma once
#include "crushwright/cell_report.hpp"
#include "review_pack/page.hpp"

#include <string>

namespace crushwright {

// Sections of a cell's page that hold what was computed; each is HTML and says so where nothing was.

/// Stiffness matrix, moduli by direction from each method, and their drawing.
std::string stiffness_section(const CellReport& report);

/// Collapse by direction from each method, the curves, the yield surface.
std::string collapse_section(const CellReport& report, ChartSet& charts);

/// Laws fitted to the computed points; empty without any.
std::string fit_section(const CellReport& report);

/// A ratio to a base property, as the value it gives with the base property beside; the bare ratio without one.
std::string over_base(double ratio, const std::optional<Quantity>& base);

} // namespace crushwright
