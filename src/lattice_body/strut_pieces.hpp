#pragma once
#include "lattice_body/cell_survey.hpp"
#include "lattice_body/strut_network.hpp"

namespace crushwright {

/// All struts of the surveyed cells with what of them lies in the region; radii are half the size at the ends. Nodes
/// are numbered in the order in which the struts of the cells, one cell after another, first need them.
/// @throws OutOfDomain for a size that is not positive
StrutNetwork strut_pieces(const LatticeFrame& frame, const RepeatingStruts& lattice, const CellSurvey& survey,
                          const InnerRegion& region, const SizeAt& size);

} // namespace crushwright
