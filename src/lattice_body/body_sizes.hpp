#pragma once
#include "lattice_body/body_mesh.hpp"

#include <string>

namespace crushwright {

/// The thinnest part of the body in words with its size: "the wall thickness of 0.4 mm".
std::string thinnest_part(const LatticeSolid& solid);

/// About how many triangles one cubic metre of the densest place of the lattice would have at a spacing [1/m³].
double densest_triangles(const LatticeSolid& solid, double spacing);

} // namespace crushwright
