#include "homogenisation/voxel_mesh.hpp"

#include "crushwright/errors.hpp"
#include "homogenisation/voxel_parts.hpp"
#include "homogenisation/voxel_solids.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace crushwright;

TEST_CASE("a voxel that floats in the cell is dropped and counted") {
  VoxelSolid solid = cubic_plates(8, 1);
  const double density = solid.relative_density;
  solid.metal[(4 * 8 + 4) * 8 + 4] = 1;
  solid.metal[(4 * 8 + 4) * 8 + 5] = 1;
  const VoxelSolid kept = with_loose_parts_dropped(solid);
  CHECK(kept.dropped == 2);
  CHECK(kept.relative_density == Approx(density).epsilon(1e-15));
  CHECK(kept.metal == cubic_plates(8, 1).metal);
}

TEST_CASE("voxels that touch along an edge alone are not joined") {
  const VoxelSolid diagonal = voxels_where({4, 4, 1}, [](int x, int y, int) { return x == y; });
  CHECK(voxel_parts(diagonal).reach == std::vector<int>{1, 1, 1, 1});
}

TEST_CASE("a part counts the directions in which it meets its own copies") {
  const VoxelSolid column = voxels_where({4, 4, 4}, [](int x, int y, int) { return x == 1 && y == 2; });
  CHECK(voxel_parts(column).reach == std::vector<int>{1});
  const VoxelSolid plate = voxels_where({4, 4, 4}, [](int, int y, int) { return y == 3; });
  CHECK(voxel_parts(plate).reach == std::vector<int>{2});
  CHECK(voxel_parts(cubic_plates(4, 1)).reach == std::vector<int>{3});
}

TEST_CASE("a stair that comes back one cell higher is one direction, not two") {
  const VoxelSolid stair =
      voxels_where({6, 6, 4}, [](int x, int y, int z) { return z == 0 && (x == y || x == (y + 1) % 6); });
  CHECK(voxel_parts(stair).reach == std::vector<int>{1});
}

TEST_CASE("metal that does not reach its copies in three directions is refused with what to do") {
  const VoxelSolid plate = voxels_where({4, 4, 4}, [](int, int y, int) { return y == 3; });
  CHECK_THROWS_WITH(with_loose_parts_dropped(plate),
                    "the metal voxels do not hang together through faces to their own copies in all three "
                    "directions. Take a finer grid or a larger size.");
}

TEST_CASE("nodes on opposite faces of the cell are one node") {
  const VoxelMesh full = voxel_mesh(voxels_where({3, 4, 5}, [](int, int, int) { return true; }));
  CHECK(full.nodes == 3 * 4 * 5);
  CHECK(full.elements.size() == 3 * 4 * 5);
  CHECK(full.elements.front() == std::array<std::int32_t, 8>{0, 1, 3, 4, 12, 13, 15, 16});
  CHECK(full.elements.back() == std::array<std::int32_t, 8>{59, 57, 50, 48, 11, 9, 2, 0});
}

TEST_CASE("the mesh holds the metal and its corners alone") {
  const VoxelMesh single =
      voxel_mesh(voxels_where({4, 4, 4}, [](int x, int y, int z) { return x == 1 && y == 1 && z == 2; }));
  CHECK(single.nodes == 8);
  REQUIRE(single.elements.size() == 1);
  CHECK(single.element_place.front() == std::array<int, 3>{1, 1, 2});
  CHECK(single.elements.front() == std::array<std::int32_t, 8>{0, 1, 2, 3, 4, 5, 6, 7});
}
