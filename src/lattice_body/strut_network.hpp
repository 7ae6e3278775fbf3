#pragma once
#include "crushwright/lattice_body.hpp"

#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

namespace crushwright {

/// A trimmed lattice while it is put in order.
struct StrutNetwork {
  static constexpr std::size_t added = std::numeric_limits<std::size_t>::max();

  StrutBody body;
  std::vector<NodePlace> places;    ///< shape = (number of nodes)
  std::vector<std::size_t> origins; ///< cell × struts of a cell + strut, or `added`; shape = (number of struts)
  std::vector<std::uint8_t> cut;    ///< 1: with a cut end; shape = (number of struts)
};

/// What holds the ends on a boundary.
struct Holders {
  bool skin = false, tip_plate = false, root_plate = false;
  bool holds(NodePlace place) const;
};

double length_of(const StrutBody& body, const BodyStrut& strut);
/// Of the frustum between its ends.
double volume_of(const StrutBody& body, const BodyStrut& strut);

/// Takes away the pieces of cut struts that are shorter than `shortest` times the larger of their two radii. A node
/// of the lattice at the other end is then as good as on the boundary, and is told to be.
StrutTally drop_short_pieces(StrutNetwork& network, double shortest);

/// Takes away what does not hang together with the longest part, through struts or through a holder.
/// @param parts  set to the number of parts taken away
StrutTally drop_fragments(StrutNetwork& network, const Holders& holders, std::int64_t& parts);

/// Takes away struts that end free until none does.
StrutTally drop_loose_ends(StrutNetwork& network, const Holders& holders);

/// Nodes with one strut that nothing holds, rising.
std::vector<std::int32_t> loose_ends(const StrutNetwork& network, const Holders& holders);

/// Keeps the struts marked 1 and the nodes that they use, in their order.
StrutTally keep_only(StrutNetwork& network, const std::vector<std::uint8_t>& kept);

} // namespace crushwright
