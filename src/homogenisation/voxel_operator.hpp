#pragma once
#include "homogenisation/brick_element.hpp"
#include "homogenisation/voxel_slabs.hpp"

#include <array>
#include <cstdint>
#include <vector>

namespace crushwright {

/// The brick's stiffness in its own symmetric modes: a voxel has three mirror planes, and sums and differences of the
/// corners' displacements fall into eight classes of three that do not mix. What is left of 24 × 24 are eight blocks
/// of 3 × 3 and additions.
template <class Real>
struct BrickBlocks {
  std::array<std::array<std::array<Real, 3>, 3>, 8> block{};
};
/// @param stiffness  with the brick's mirror symmetry
BrickBlocks<double> brick_blocks(const BrickMatrix& stiffness);

/// Arithmetic operations of one element, additions into the nodes included.
constexpr double brick_operations = 2 * 3 * 24 + 8 * 15 + 24;

/// forces[3 node + axis] += element forces of `count` elements, eight at a time. Every element does the same
/// operations in the same order on every machine, so wider registers change the time alone.
void add_brick_forces(const BrickBlocks<double>& blocks, const std::array<std::int32_t, 8>* elements,
                      std::size_t count, const double* displacements, double* forces);
void add_brick_forces(const BrickBlocks<float>& blocks, const std::array<std::int32_t, 8>* elements,
                      std::size_t count, const float* displacements, float* forces);

/// The same for one element with a matrix of its own, for coarse grids.
/// @param matrices  24 × 24 each, one after the other, symmetric
/// @param kinds     which matrix each element has; shape = (count)
void add_matrix_forces(const float* matrices, const std::int32_t* kinds, const std::array<std::int32_t, 8>* elements,
                       std::size_t count, const float* displacements, float* forces);

} // namespace crushwright
