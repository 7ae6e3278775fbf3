#include "homogenisation/voxel_parts.hpp"

#include <Eigen/Core>
#include <Eigen/Geometry>

#include <array>
#include <numeric>

namespace crushwright {
namespace {

using Boxes = Eigen::Matrix<std::int32_t, 3, 1>; ///< whole boxes along x, y, z

/// Forest of voxels; each knows in which copy of the box it lies, seen from its parent.
class VoxelForest {
public:
  explicit VoxelForest(std::size_t voxels) : parent_(voxels), from_parent_(voxels, Boxes::Zero()) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }

  struct Place {
    std::size_t root;
    Boxes boxes; ///< of the voxel, seen from the root
  };

  Place find(std::size_t voxel) {
    std::size_t root = voxel;
    Boxes boxes = Boxes::Zero();
    while (parent_[root] != root) {
      boxes += from_parent_[root];
      root = parent_[root];
    }
    Boxes left = boxes;
    while (parent_[voxel] != root && voxel != root) {
      const std::size_t above = parent_[voxel];
      const Boxes step = from_parent_[voxel];
      parent_[voxel] = root;
      from_parent_[voxel] = left;
      left -= step;
      voxel = above;
    }
    return {root, boxes};
  }

  /// The second voxel stands `step` boxes on, seen from the first.
  void join(std::size_t first, std::size_t second, const Boxes& step) {
    const Place a = find(first);
    const Place b = find(second);
    if (a.root == b.root)
      return;
    const bool a_first = a.root < b.root;
    const Boxes b_from_a = a.boxes + step - b.boxes;
    parent_[a_first ? b.root : a.root] = a_first ? a.root : b.root;
    from_parent_[a_first ? b.root : a.root] = a_first ? b_from_a : Boxes(-b_from_a);
  }

private:
  std::vector<std::size_t> parent_;
  std::vector<Boxes> from_parent_;
};

/// Up to three independent directions.
struct Directions {
  std::array<Eigen::Vector3d, 3> basis;
  int count = 0;

  void add(const Boxes& boxes) {
    const Eigen::Vector3d v = boxes.cast<double>();
    bool independent = false;
    if (count == 0)
      independent = v.squaredNorm() > 0;
    else if (count == 1)
      independent = basis[0].cross(v).squaredNorm() > 0.5;
    else if (count == 2)
      independent = std::abs(basis[0].cross(basis[1]).dot(v)) > 0.5;
    if (independent)
      basis[static_cast<std::size_t>(count++)] = v;
  }
};

/// Calls visit(voxel, neighbour, boxes crossed) for each pair of metal voxels that share a face.
template <class Visit>
void visit_faces(const VoxelSolid& solid, const Visit& visit) {
  const auto [nx, ny, nz] = solid.cells;
  const auto index = [&](int x, int y, int z) {
    return (static_cast<std::size_t>(z) * static_cast<std::size_t>(ny) + static_cast<std::size_t>(y)) *
               static_cast<std::size_t>(nx) +
           static_cast<std::size_t>(x);
  };
  for (int z = 0; z < nz; ++z)
    for (int y = 0; y < ny; ++y)
      for (int x = 0; x < nx; ++x) {
        const std::size_t here = index(x, y, z);
        if (!solid.metal[here])
          continue;
        const std::array<std::size_t, 3> next{index((x + 1) % nx, y, z), index(x, (y + 1) % ny, z),
                                              index(x, y, (z + 1) % nz)};
        const std::array<bool, 3> crosses{x + 1 == nx, y + 1 == ny, z + 1 == nz};
        for (std::size_t axis = 0; axis < 3; ++axis)
          if (solid.metal[next[axis]]) {
            Boxes step = Boxes::Zero();
            step[static_cast<Eigen::Index>(axis)] = crosses[axis] ? 1 : 0;
            visit(here, next[axis], step);
          }
      }
}

} // namespace

VoxelParts voxel_parts(const VoxelSolid& solid) {
  VoxelForest forest(solid.metal.size());
  visit_faces(solid, [&](std::size_t a, std::size_t b, const Boxes& step) { forest.join(a, b, step); });

  VoxelParts parts;
  parts.part_of.assign(solid.metal.size(), -1);
  std::int32_t count = 0;
  for (std::size_t voxel = 0; voxel < solid.metal.size(); ++voxel)
    if (solid.metal[voxel]) {
      std::int32_t& root_part = parts.part_of[forest.find(voxel).root];
      if (root_part < 0)
        root_part = count++;
      parts.part_of[voxel] = root_part;
    }

  std::vector<Directions> directions(static_cast<std::size_t>(count));
  visit_faces(solid, [&](std::size_t a, std::size_t b, const Boxes& step) {
    const Boxes loop = forest.find(a).boxes + step - forest.find(b).boxes;
    Directions& own = directions[static_cast<std::size_t>(parts.part_of[a])];
    if (own.count < 3 && !loop.isZero())
      own.add(loop);
  });
  for (const Directions& own : directions)
    parts.reach.push_back(own.count);
  return parts;
}

} // namespace crushwright
