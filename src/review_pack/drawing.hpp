#pragma once
#include "crushwright/estimate.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// Plan of all structures as inline SVG, to scale: stations run up the page from the struck end to the attachment,
/// y to the left; layers shaded by relative density, parts, dimensions in mm.
std::string plan_drawing(const std::vector<StructureModel>& structures);

/// Outlines at the struck end and at the attachment of one structure, to one scale, with dimensions in mm.
std::string section_drawing(const StructureModel& structure);

} // namespace crushwright
