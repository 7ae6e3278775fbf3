#pragma once
#include "homogenisation/brick_element.hpp"
#include "homogenisation/voxel_mesh.hpp"

#include <Eigen/StdVector>

#include <array>
#include <cstdint>
#include <vector>

namespace crushwright {

/// A grid of bricks, each with the stiffness of the metal inside it; many share one matrix.
struct ElementGrid {
  std::array<int, 3> cells{};
  VoxelMesh mesh;                  ///< of the elements with metal; spacing unused on coarse grids
  std::vector<std::int32_t> kinds; ///< matrix of each element; shape = (number of elements)
  std::vector<BrickMatrix, Eigen::aligned_allocator<BrickMatrix>> matrices; ///< shape = (number of kinds)
};

/// Every element of the next grid holds up to 2 × 2 × 2 elements and is stiff as they are when their nodes follow its
/// own trilinearly (Galerkin's choice). Along an axis with an odd number of elements the last one stays alone.
ElementGrid coarser(const ElementGrid& fine);

/// A fine node is the mean of 1, 2, 4 or 8 coarse nodes. Lists by node: those of node i stand from first[i] up to
/// first[i + 1].
struct GridTransfer {
  std::vector<std::int32_t> first_coarse; ///< shape = (fine nodes + 1)
  std::vector<std::int32_t> coarse_nodes;
  std::vector<std::int32_t> first_fine; ///< shape = (coarse nodes + 1)
  std::vector<std::int32_t> fine_nodes;
  std::vector<float> fine_weights; ///< share of the coarse node in the fine node
};
GridTransfer grid_transfer(const ElementGrid& fine, const ElementGrid& coarse);

/// Grid position of each node; shape = (number of nodes, 3).
std::vector<std::array<int, 3>> node_places(const VoxelMesh& mesh, const std::array<int, 3>& cells);

} // namespace crushwright
