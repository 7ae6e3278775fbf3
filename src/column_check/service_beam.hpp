#pragma once
#include "crushwright/column_check.hpp"

#include <array>
#include <vector>

namespace crushwright {

/// (x, y, z): x along the structure from its struck end to the attachment, y to the left, z up.
using SpaceVector = std::array<double, 3>;

/// What acts on a structure that stands on its attachment.
struct BeamLoads {
  SpaceVector force{};        ///< on the section's centroid at `station` [N]
  double station = 0;         ///< [m]
  SpaceVector tip_force{};    ///< at station 0 [N]
  double pressure = 0;        ///< on one side over the whole length [Pa]
  SpaceVector pushes{};       ///< unit vector of the pressure, along y or z
  SpaceVector acceleration{}; ///< of the body; its own masses push the other way [m/s^2]
};

/// What the struck end's part of a structure puts on a cut.
struct CutLoad {
  SpaceVector force{};  ///< x positive: compression [N]
  SpaceVector moment{}; ///< about the cut's centroid; x is torque [N m]
};

/// One cut with its section.
struct BeamCut {
  BeamSection section;
  CutLoad load;
};

/// A loaded cantilever.
struct BeamResponse {
  std::vector<BeamCut> cuts;      ///< from the struck end to the attachment; a place with a point load stands twice
  SpaceVector tip_displacement{}; ///< of the centroid at station 0 [m]
};

/// Linear elastic, with shear, small displacements; sections linear between the given ones, constant before the
/// first.
/// @throws OutOfDomain when the force acts outside [0, length] or a section has no stiffness.
BeamResponse beam_response(const BeamColumn& column, const BeamLoads& loads);

/// The section at a station, every value linear between the given ones; materials too.
BeamSection section_of(const BeamColumn& column, double station);

/// k G A along the forces that bend about `axis`, lattice and skin together [N]; docs/method/service_loads.md.
double shear_stiffness(const BeamSection& section, Bending axis);

} // namespace crushwright
