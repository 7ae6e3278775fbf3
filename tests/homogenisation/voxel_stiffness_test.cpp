#include "homogenisation/voxel_stiffness.hpp"

#include "homogenisation/voxel_solids.hpp"
#include "scaling_law/bounds.hpp"

#include <Eigen/Eigenvalues>
#include <catch2/catch.hpp>
#include <tbb/global_control.h>

using namespace crushwright;

namespace {

constexpr double nu = 0.3;

StiffnessMatrix computed(const VoxelSolid& solid, double tolerance = 1e-8) {
  return voxel_stiffness(solid, nu, tolerance).over_youngs_modulus;
}

double distance(const StiffnessMatrix& one, const StiffnessMatrix& other) {
  return (one - other).norm() / other.norm();
}

/// Metal that no turn of the cube brings back to itself.
VoxelSolid crooked_frame(std::array<int, 3> cells, std::array<double, 3> edges = {1, 1, 1}) {
  return voxels_where(
      cells,
      [](int x, int y, int z) {
        const std::array<int, 3> at{x % 8, y % 8, z % 8};
        return (at[0] < 3 && at[1] < 2) || (at[1] < 3 && at[2] < 4 && at[2] > 1) || (at[0] < 4 && at[2] < 3) ||
               (at[0] == at[1] && at[2] < 5);
      },
      edges);
}

} // namespace

TEST_CASE("a full block is the metal itself") {
  const auto everywhere = [](int, int, int) { return true; };
  CHECK(distance(computed(voxels_where({8, 8, 8}, everywhere)), isotropic_stiffness(1, nu)) < 1e-13);
  CHECK(distance(computed(voxels_where({4, 6, 5}, everywhere, {1, 2, 0.5})), isotropic_stiffness(1, nu)) < 1e-13);
}

TEST_CASE("a stack of plates carries plane stress in its plane and nothing across") {
  const VoxelSolid plates = voxels_where({4, 6, 8}, [](int, int, int z) { return z < 3; }, {1, 1.5, 2});
  StiffnessMatrix expected = StiffnessMatrix::Zero();
  const double share = 3.0 / 8;
  expected(0, 0) = expected(1, 1) = share / (1 - nu * nu);
  expected(0, 1) = expected(1, 0) = share * nu / (1 - nu * nu);
  expected(5, 5) = share / (2 * (1 + nu));
  CHECK(distance(computed(plates), expected) < 1e-7);
}

TEST_CASE("a square prism is as stiff along its axis as its share of the section") {
  const VoxelSolid column = voxels_where({8, 8, 4}, [](int x, int y, int) { return x < 3 && y < 3; });
  StiffnessMatrix expected = StiffnessMatrix::Zero();
  expected(2, 2) = 9.0 / 64;
  CHECK(distance(computed(column), expected) < 1e-7);
}

TEST_CASE("three sets of thin plates reach the bulk bound as they become thin") {
  const auto shortfall = [](int n) {
    const VoxelSolid plates = cubic_plates(n, 1);
    const double bulk = bulk_modulus_voigt(computed(plates, 1e-7));
    const double bound = hashin_shtrikman_bulk_modulus(plates.relative_density, nu);
    const double slender = 2 * plates.relative_density / (9 * (1 - nu));
    CHECK(bulk < bound);
    CHECK(bulk == Approx(slender).epsilon(plates.relative_density));
    return 1 - bulk / bound;
  };
  const double at_16 = shortfall(16);
  const double at_32 = shortfall(32);
  CHECK(at_16 < 0.02);
  CHECK(at_32 < 0.6 * at_16);
}

TEST_CASE("two cells side by side are as stiff as one") {
  CHECK(distance(computed(crooked_frame({16, 8, 8}, {2, 1, 1})), computed(crooked_frame({8, 8, 8}))) < 1e-6);
}

TEST_CASE("six load cases give the stiffness that two give by symmetry") {
  const VoxelSolid sheet = wavy_sheet(16, 0.3);
  const VoxelStiffness by_symmetry = voxel_stiffness(sheet, nu, 1e-9);
  CHECK(by_symmetry.load_cases == 2);
  VoxelSolid twice = sheet;
  twice.cells = {16, 16, 32};
  twice.edges = {1, 1, 2};
  twice.metal.insert(twice.metal.end(), sheet.metal.begin(), sheet.metal.end());
  const VoxelStiffness in_full = voxel_stiffness(twice, nu, 1e-9);
  CHECK(in_full.load_cases == 6);
  CHECK(distance(in_full.over_youngs_modulus, by_symmetry.over_youngs_modulus) < 1e-7);
}

TEST_CASE("one voxel out of place is seen by the check of symmetry") {
  VoxelSolid plates = cubic_plates(8, 2);
  CHECK(has_cubic_symmetry(plates));
  plates.metal[(3 * 8 + 5) * 8 + 4] = 1;
  CHECK_FALSE(has_cubic_symmetry(plates));
  CHECK_FALSE(has_cubic_symmetry(crooked_frame({8, 8, 8})));
}

TEST_CASE("the stiffness is the same to the last bit on any number of threads") {
  const VoxelSolid sheet = wavy_sheet(32, 0.2);
  const auto on_threads = [&](std::size_t threads) {
    const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
    return voxel_stiffness(sheet, nu, 1e-6).over_youngs_modulus;
  };
  const StiffnessMatrix alone = on_threads(1);
  CHECK(on_threads(2) == alone);
  CHECK(on_threads(3) == alone);
}

TEST_CASE("no stiffness exceeds the metal's share, nor the bulk bound of a cubic cell") {
  for (const VoxelSolid& solid : {wavy_sheet(24, 0.25), crooked_frame({8, 8, 8}), cubic_plates(12, 2)}) {
    const StiffnessMatrix stiffness = computed(solid);
    const StiffnessMatrix left = solid.relative_density * isotropic_stiffness(1, nu) - stiffness;
    CHECK(Eigen::SelfAdjointEigenSolver<StiffnessMatrix>(left).eigenvalues().minCoeff() > 0);
    CHECK(Eigen::SelfAdjointEigenSolver<StiffnessMatrix>(stiffness).eigenvalues().minCoeff() > 0);
    if (has_cubic_symmetry(solid))
      CHECK(bulk_modulus_voigt(stiffness) < hashin_shtrikman_bulk_modulus(solid.relative_density, nu));
  }
}
