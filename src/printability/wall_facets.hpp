#pragma once
#include "crushwright/unit_cell.hpp"
#include "printability/vector.hpp"

#include <memory>
#include <vector>

namespace crushwright {

/// A small flat piece of a cell's wall, or of the surface of a network or solid.
struct Facet {
  Vector area;   ///< normal times area, of a network or solid outward [cell edges²], cell axes
  Vector centre; ///< [cell edges]
};

/// The pieces that a cell without struts is made of.
struct CellFacets {
  bool two_sided = true; ///< walls, of which each has a side that faces down; false: outward surface of the metal
  std::vector<Facet> facets;
  std::vector<double>
      flat_width; ///< plates and honeycomb: narrowest width of each facet's wall [cell edges]; else empty
};

/// Walls of sheets (their middle surface), plates and honeycombs; the surface of networks and solids, cell faces left
/// out. Surfaces are cut into triangles on 32 grid cells along the edge. Remembers level surfaces.
/// @throws OutOfDomain for struts and foams.
std::shared_ptr<const CellFacets> cell_facets(const UnitCell& cell, double size_ratio);

/// Area of the pieces flatter than an angle to the platform that face down, and of all [cell edges²].
struct FacetArea {
  double whole = 0;
  double overhanging = 0;
};
/// @param direction  build direction in cell axes, unit.
FacetArea overhanging_area(const CellFacets& facets, const Vector& direction, double self_supporting_angle);

/// Width of the widest ceiling: over the patches of overhanging pieces that hang together, the smallest horizontal
/// extent of a patch [cell edges]. A patch that meets its own
/// copies without end counts with one cell edge; a plate or a honeycomb wall with its own narrowest width.
double widest_ceiling(const CellFacets& facets, const Vector& direction, double self_supporting_angle);

} // namespace crushwright
