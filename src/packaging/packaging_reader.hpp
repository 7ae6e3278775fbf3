#pragma once
#include "crushwright/packaging.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Ramp beyond which an attached underbody flow is doubtful, unless the case states another [rad]: 11 degrees, common
/// practice.
extern const double usual_ramp_limit;

/// Reads the block `packaging` of a structure (docs/method/packaging.md).
/// @param lateral  y of the structure's axis in the car [m]
/// @throws InputError at the key: a box turned inside out, a surface that cannot be read, faces without an outer
/// side.
PackagingInput read_packaging(Mapping packaging, const Envelope& envelope, double lateral);

/// The six faces of a box along the axes, facing outward.
TriangleMesh box_surface(const std::array<double, 3>& low, const std::array<double, 3>& high);

} // namespace crushwright
