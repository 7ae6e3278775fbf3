#pragma once
#include <string>

namespace crushwright {

/// A doubt about the unit that was stated for a file, with the units that would be plausible; empty when the largest
/// side lies between 5 mm and 10 m.
/// @param largest_side     [m]
/// @param metres_per_unit  as stated
std::string doubt_of_unit(double largest_side, double metres_per_unit);

} // namespace crushwright
