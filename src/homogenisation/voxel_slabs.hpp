#pragma once
#include "homogenisation/voxel_mesh.hpp"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cstddef>
#include <vector>

namespace crushwright {

/// Elements cut into slabs along z, in two colours: no two slabs of a colour share a node, so they may add to nodes
/// at the same time, and every node takes its sums in one order whatever the number of threads. The number of slabs
/// is even, because the last one meets the first one's copy.
struct VoxelSlabs {
  struct Slab {
    std::size_t begin;
    std::size_t end; ///< of the elements
  };
  std::vector<Slab> even;
  std::vector<Slab> odd;

  /// @param layers  voxels along z
  VoxelSlabs(const VoxelMesh& mesh, int layers) {
    const int most = 64;
    const int count = layers < 2 ? 1 : std::min(layers - layers % 2, most);
    std::size_t begin = 0;
    for (int slab = 0; slab < count; ++slab) {
      const int last_layer = (slab + 1) * layers / count;
      std::size_t end = begin;
      while (end < mesh.element_place.size() && mesh.element_place[end][2] < last_layer)
        ++end;
      (slab % 2 == 0 ? even : odd).push_back({begin, end});
      begin = end;
    }
  }

  /// work(begin, end) on each slab.
  template <class Work>
  void for_each(const Work& work) const {
    for (const std::vector<Slab>* colour : {&even, &odd})
      tbb::parallel_for(std::size_t{0}, colour->size(),
                        [&](std::size_t slab) { work((*colour)[slab].begin, (*colour)[slab].end); });
  }
};

/// work(begin, end) on pieces of fixed length of [0, size), on all cores.
template <class Work>
void in_pieces(std::size_t size, const Work& work) {
  const std::size_t length = 4096;
  const std::size_t pieces = (size + length - 1) / length;
  if (pieces == 1)
    work(std::size_t{0}, size);
  else
    tbb::parallel_for(std::size_t{0}, pieces,
                      [&](std::size_t piece) { work(piece * length, std::min(size, (piece + 1) * length)); });
}

} // namespace crushwright
