#include "homogenisation/voxel_multigrid.hpp"

#include "crushwright/stiffness_matrix.hpp"
#include "homogenisation/brick_element.hpp"
#include "homogenisation/voxel_levels.hpp"
#include "homogenisation/voxel_solids.hpp"
#include "homogenisation/voxel_solver.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace crushwright;

namespace {

std::vector<double> irregular_forces(std::int32_t nodes, std::uint32_t seed) {
  std::vector<double> forces(3 * static_cast<std::size_t>(nodes));
  std::array<double, 3> mean{};
  for (std::size_t i = 0; i < forces.size(); ++i) {
    seed = seed * 1664525U + 1013904223U;
    forces[i] = static_cast<double>(seed >> 8) / 8388608.0 - 1;
    mean[i % 3] += forces[i] / nodes;
  }
  for (std::size_t i = 0; i < forces.size(); ++i)
    forces[i] -= mean[i % 3];
  return forces;
}

struct Problem {
  VoxelMesh mesh;
  VoxelMultigrid multigrid;

  explicit Problem(const VoxelSolid& solid) : mesh(voxel_mesh(solid)), multigrid(mesh, solid.cells, 0.3) {}

  int iterations() const {
    std::vector<double> displacements(3 * static_cast<std::size_t>(mesh.nodes), 0.0);
    return pcg([&](const auto& x, auto& y) { multigrid.apply(x, y); },
               [&](const auto& r, auto& z) { multigrid.precondition(r, z); }, irregular_forces(mesh.nodes, 1),
               displacements, 1e-6, 200)
        .iterations;
  }
};

} // namespace

TEST_CASE("work done by one load on the displacements of another is the same the other way round") {
  const Problem problem(wavy_sheet(16, 0.3));
  const std::vector<double> one = irregular_forces(problem.mesh.nodes, 1);
  const std::vector<double> other = irregular_forces(problem.mesh.nodes, 2);
  std::vector<double> from_one(one.size());
  std::vector<double> from_other(one.size());

  problem.multigrid.apply(one, from_one);
  problem.multigrid.apply(other, from_other);
  CHECK(ordered_dot(other, from_one) == Approx(ordered_dot(one, from_other)).epsilon(1e-11));
  CHECK(ordered_dot(one, from_one) > 0);

  problem.multigrid.precondition(one, from_one);
  problem.multigrid.precondition(other, from_other);
  const double scale = std::sqrt(ordered_dot(one, from_one) * ordered_dot(other, from_other));
  CHECK(ordered_dot(other, from_one) == Approx(ordered_dot(one, from_other)).margin(1e-5 * scale));
}

TEST_CASE("a uniform strain leaves the inside of the metal without force") {
  const std::array<int, 3> cells{6, 6, 6};
  const VoxelSolid block =
      voxels_where(cells, [](int x, int y, int z) { return x < 4 && y < 4 && z < 4; }, {1, 2, 3});
  const VoxelMesh mesh = voxel_mesh(block);
  const VoxelMultigrid multigrid(mesh, cells, 0.3);
  Voigt strain;
  strain << 0.7, -0.2, 0.4, 0.3, -0.6, 0.1;
  const auto places = node_places(mesh, cells);
  std::vector<double> displacements;
  for (const auto& place : places) {
    const std::array<double, 3> box{place[0] * mesh.spacing[0], place[1] * mesh.spacing[1],
                                    place[2] * mesh.spacing[2]};
    const Eigen::Vector3d corner = brick_displacements(box, strain).tail<3>();
    displacements.insert(displacements.end(), {corner(0), corner(1), corner(2)});
  }
  std::vector<double> forces(displacements.size());
  multigrid.apply(displacements, forces);
  int inside = 0;
  for (std::size_t node = 0; node < places.size(); ++node) {
    const auto& place = places[node];
    const bool on_skin = std::any_of(place.begin(), place.end(), [](int at) { return at == 0 || at == 4; });
    inside += on_skin ? 0 : 1;
    for (std::size_t axis = 0; axis < 3; ++axis)
      if (!on_skin)
        CHECK(std::abs(forces[3 * node + axis]) < 1e-14);
  }
  CHECK(inside == 27);
}

TEST_CASE("the coarse grid stores the energy of the fine one when both move alike") {
  const VoxelSolid solid =
      voxels_where({6, 5, 7}, [](int x, int y, int z) { return (x * 7 + y * 3 + z * 5) % 4 != 0; });
  ElementGrid fine{solid.cells, voxel_mesh(solid), {}, {brick_stiffness({1, 1, 1}, 0.3)}};
  fine.kinds.assign(fine.mesh.elements.size(), 0);
  const ElementGrid coarse = coarser(fine);
  const GridTransfer transfer = grid_transfer(fine, coarse);
  const std::vector<double> motion = irregular_forces(coarse.mesh.nodes, 3);
  std::vector<double> fine_motion(3 * static_cast<std::size_t>(fine.mesh.nodes));
  for (std::size_t node = 0; node + 1 < transfer.first_coarse.size(); ++node) {
    const auto first = static_cast<std::size_t>(transfer.first_coarse[node]);
    const auto last = static_cast<std::size_t>(transfer.first_coarse[node + 1]);
    for (std::size_t entry = first; entry < last; ++entry)
      for (std::size_t axis = 0; axis < 3; ++axis)
        fine_motion[3 * node + axis] += motion[3 * static_cast<std::size_t>(transfer.coarse_nodes[entry]) + axis] /
                                        static_cast<double>(last - first);
  }
  const auto energy = [](const ElementGrid& grid, const std::vector<double>& u) {
    double sum = 0;
    for (std::size_t element = 0; element < grid.kinds.size(); ++element) {
      Eigen::Matrix<double, 24, 1> own;
      for (std::size_t i = 0; i < 24; ++i)
        own(static_cast<Eigen::Index>(i)) =
            u[3 * static_cast<std::size_t>(grid.mesh.elements[element][i / 3]) + i % 3];
      sum += own.dot(grid.matrices[static_cast<std::size_t>(grid.kinds[element])] * own);
    }
    return sum;
  };
  CHECK(coarse.cells == std::array<int, 3>{3, 3, 4});
  CHECK(energy(coarse, motion) == Approx(energy(fine, fine_motion)).epsilon(1e-12));
}

TEST_CASE("the number of iterations hardly depends on the grid, also on one that does not halve") {
  const int on_16 = Problem(wavy_sheet(16, 0.2)).iterations();
  CHECK(Problem(wavy_sheet(32, 0.2)).iterations() <= 1.25 * on_16);
  CHECK(Problem(wavy_sheet(27, 0.2)).iterations() <= 1.5 * on_16);
}
