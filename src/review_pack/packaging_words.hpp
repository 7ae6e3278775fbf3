#pragma once
#include "crushwright/estimate.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// Whether a structure has a block `packaging` or was drawn as a surface.
bool has_room_to_show(const Estimate& estimate);

/// The clearance of one keep-out after one impact, on a side that is not stacked [m]; null when the impact does not
/// strike the structure.
const Clearance* clearance_after(const ImpactOutcome& impact, const std::string& structure, std::size_t keep_out,
                                 Side side);

/// Volume inside the skin [m^3].
double lattice_volume(const StructureModel& structure);

/// "12.3 °".
std::string angle_text(double radians);

/// "5.2 mm", "-3 mm, 3 mm deep inside": a clearance in words.
std::string clearance_text(const Clearance& clearance);

/// For the terminal: one line for each flow face and each keep-out of a structure.
std::vector<std::string> packaging_lines(const Estimate& estimate, const StructureModel& structure);

} // namespace crushwright
