#pragma once
#include "crushwright/estimate.hpp"
#include "result_file/csv.hpp"
#include "result_file/file_set.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// Time step at which the histories of an impact are shown and stored [s]: 1, 2 or 5 times a power of ten, the
/// smallest that gives at most 400 samples from contact to the last separation.
double history_step(const ImpactMotion& motion);

/// Nominal cell curve at a station of a structure, as shown and stored; empty when the structure has no lattice
/// there.
StressStrain cell_curve_at(const StructureModel& structure, const CellAtStation& cell);

/// Every curve of an estimate as a CSV file under "curves/", SI units: force-crush per structure and side, histories
/// per impact, the cell's stress-strain curves, the layers along the axis.
std::vector<PackFile> curve_files(const Estimate& estimate);

} // namespace crushwright
