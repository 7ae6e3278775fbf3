#pragma once
#include "crushwright/unit_cell.hpp"

#include <cstddef>
#include <vector>

namespace crushwright {

/// How far a ball gets through the void of a cell that repeats for ever.
struct VoidPassage {
  bool closed = false; ///< some void leads nowhere
  double radius = 0;   ///< of the largest ball that finds a way on from every void [cell edges]; 0 when closed
};

/// Bottleneck of a periodic void: places are taken in falling distance and joined with their neighbours; a cluster is
/// open from the distance on at which it first meets its own copy, or joins one that did. The smallest such distance
/// over all voids is the answer.
/// @param distance  to the metal at the nodes of a periodic n × n × n grid over one cell, x fastest [cell edges]; 0
///                  or less inside the metal. Nodes below √3/2 of a spacing are left out: between those a wall hides.
VoidPassage void_passage(const std::vector<double>& distance, std::size_t n);

/// The same for a catalogue cell with a size. Exact to the grid, which for cells of struts, sheets and plates has
/// nodes at every 24th of the edge (docs/method/printability.md). Remembers what it has computed.
/// @param nodes  along the cell edge
/// @throws OutOfDomain for a honeycomb, whose tubes are known, and for a foam.
VoidPassage void_passage(const UnitCell& cell, double size_ratio, std::size_t nodes = 24);

} // namespace crushwright
