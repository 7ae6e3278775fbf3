#pragma once
#include "crushwright/quantity.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// What a lattice still carries along its crush axis when the force stands at an angle to it. docs/method/oblique.md.
struct ObliqueStrength {
  std::vector<double> angles; ///< of the force to the crush axis, rising from 0 [rad]
  std::vector<double> low;    ///< crush force over that at angle 0, lower end; as angles [-], > 0
  std::vector<double> high;   ///< upper end; above 1 where a shear leans the cell towards a stiffer direction
  Evidence evidence = Evidence::generic;
  std::string how; ///< where the range comes from, for the evidence tables
};

struct ObliqueFactor {
  double low = 1;  ///< [-]
  double high = 1; ///< [-]
};

/// Between the angles of the strength, linear in the angle; a force to the left counts as one to the right.
/// @param angle  of the force to the crush axis [rad]
/// @throws OutOfDomain for an angle beyond the strength's last; 30 degrees.
ObliqueFactor factor_at(const ObliqueStrength& strength, double angle);

} // namespace crushwright
