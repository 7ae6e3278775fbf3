#pragma once
#include "lattice_body/inner_region.hpp"
#include "lattice_body/strut_network.hpp"

namespace crushwright {

/// Joins every loose end to the nearest node that is farther off than its own diameter, no farther than `reach`, not
/// already joined to it, and in sight: the straight line to it stays in the region, but for bulges under a tenth of
/// the radius. The strut has the loose end's radius throughout. One strut ties two ends that choose each other. Ends
/// go in their order; what an earlier tie has closed is loose no more.
/// @param reach  [m]
/// @return       the struts added
StrutTally tie_loose_ends(StrutNetwork& network, const Holders& holders, const InnerRegion& region, double reach);

} // namespace crushwright
