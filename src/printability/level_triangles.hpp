#pragma once
#include "printability/wall_facets.hpp"
#include "unit_cell/level_surface.hpp"

#include <vector>

namespace crushwright {

/// Triangles of f = level over one cell by marching tetrahedra on n × n × n cubes; normals point to where f is
/// smaller, which is out of a network f > level.
std::vector<Facet> level_triangles(SheetSurface surface, double level, int n);

} // namespace crushwright
