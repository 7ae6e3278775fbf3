#pragma once
#include "crushwright/printability.hpp"
#include "printability/vector.hpp"

#include <vector>

namespace crushwright {

/// A strut between two nodes, as it lies when it is printed.
struct Bar {
  std::size_t from = 0; ///< places among the nodes; of a periodic cell a node stands for all its copies
  std::size_t to = 0;
  Vector along; ///< from `from` to `to`
};

/// Struts by length, spans and nodes that nothing carries; docs/method/printability.md.
/// @param carried    one flag a node: on the platform, or grown out of a skin
/// @param direction  build direction, unit
LatticeSupport strut_support(const std::vector<Bar>& bars, const std::vector<char>& carried, const Vector& direction,
                             double self_supporting_angle);

/// The struts of one periodic cell with its nodes folded into one cell, in cell edges and cell axes.
struct CellBars {
  std::vector<Bar> bars;
  std::size_t nodes = 0;
};
CellBars cell_bars(const std::vector<Strut>& struts);

} // namespace crushwright
