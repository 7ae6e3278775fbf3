#pragma once
#include "unit_cell/cell_solid.hpp"
#include "unit_cell/solid_body.hpp"

namespace crushwright {

/// Volume fraction of a body sampled on one n × n × n grid with the ramp of sampled_volume_fractions. Layers run in
/// parallel and are summed in order. For a body that repeats in a cube.
double sampled_body_fraction(const SolidBody& body, int n);

/// Extrapolated from grids of n and 3n/2 cells along the edge.
/// @param n  even, > 0; 4/n at most the thinnest part of the body
VolumeFraction body_fraction(const SolidBody& body, int n);

} // namespace crushwright
