#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <vector>

namespace crushwright {

/// Where lines along one axis enter (+1) and leave (-1) a closed mesh, in rising order.
struct LineCrossing {
  double at = 0;
  int turn = 0;
};

/// Crossings of the lines along `axis` through every pair of the stated places on the next two axes, cyclically.
///
/// The lines are moved aside by a few 1e-8 cell edges, so that none runs along an edge or through a corner of the
/// mesh; where one does all the same, by a little more.
/// @param first   places on axis + 1
/// @param second  places on axis + 2
/// @return        shape = (size of second, size of first), first fastest
std::vector<std::vector<LineCrossing>> line_crossings(const TriangleMesh& mesh, std::size_t axis,
                                                      const std::vector<double>& first,
                                                      const std::vector<double>& second);

/// Whether a point of a line lies inside, from the line's crossings.
bool inside_at(const std::vector<LineCrossing>& crossings, double place);

} // namespace crushwright
