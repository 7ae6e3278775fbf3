#pragma once
#include "crushwright/unit_cell.hpp"

#include <Eigen/Core>

#include <cstdint>
#include <vector>

namespace crushwright {

/// A strut of the repeating lattice, owned by the cell in which its middle lies.
struct RepeatingStrut {
  int from = 0, to = 0;                 ///< places in RepeatingStruts::nodes
  Eigen::Vector3i from_shift, to_shift; ///< cells from the owner to the copy of the node
};

/// What lies in one closed cell: its own struts and nodes, and those of its neighbours on its faces and edges.
struct InClosedCell {
  int place = 0;         ///< in RepeatingStruts::struts or nodes
  Eigen::Vector3i shift; ///< cells from this cell to the owner
  double share = 1;      ///< one over the number of cells that share it [-]
};

/// One cell of a lattice that repeats, each strut and node once; struts that meet are joined.
struct RepeatingStruts {
  std::vector<Eigen::Vector3d> nodes; ///< in [0, 1)³ [cell edges]
  std::vector<RepeatingStrut> struts;
  std::vector<InClosedCell> closed_struts;
  std::vector<InClosedCell> closed_nodes;
  double reach = 0; ///< of the cell and of the struts that it owns, from the middle of the cell [cell edges]

  Eigen::Vector3d end(const RepeatingStrut& strut, bool at_to) const; ///< in cell edges from the owner's corner
  double length(const RepeatingStrut& strut) const;                   ///< [cell edges]
  std::vector<Eigen::Vector3d> directions_at(int node) const;         ///< unit vectors, away from the node
};

/// @throws OutOfDomain for a cell that is not of struts or does not hang together
RepeatingStruts repeating_struts(const UnitCell& cell);

} // namespace crushwright
