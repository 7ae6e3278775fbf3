#include "homogenisation/voxel_operator.hpp"

#include "homogenisation/voxel_solids.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

std::vector<double> irregular(std::size_t size) {
  std::vector<double> values(size);
  std::uint32_t state = 7;
  for (double& value : values) {
    state = state * 1664525U + 1013904223U;
    value = static_cast<double>(state >> 8) / 8388608.0 - 1;
  }
  return values;
}

VoxelMesh irregular_mesh() {
  return voxel_mesh(voxels_where(
      {5, 3, 7}, [](int x, int y, int z) { return (x * 7 + y * 3 + z * 5 + x * z) % 3 != 0; }, {1, 0.7, 1.3}));
}

template <class Real>
std::vector<Real> plain_product(const VoxelMesh& mesh, const BrickMatrix& stiffness, const std::vector<double>& x) {
  std::vector<double> y(x.size());
  for (const auto& nodes : mesh.elements)
    for (std::size_t row = 0; row < 24; ++row)
      for (std::size_t column = 0; column < 24; ++column)
        y[3 * static_cast<std::size_t>(nodes[row / 3]) + row % 3] +=
            stiffness(static_cast<Eigen::Index>(row), static_cast<Eigen::Index>(column)) *
            x[3 * static_cast<std::size_t>(nodes[column / 3]) + column % 3];
  return {y.begin(), y.end()};
}

} // namespace

TEST_CASE("forces in the brick's symmetric modes are those of its full matrix") {
  const VoxelMesh mesh = irregular_mesh();
  REQUIRE(mesh.elements.size() % 8 != 0); // a last batch that is not full
  const BrickMatrix stiffness = brick_stiffness(mesh.spacing, 0.3);
  const std::vector<double> x = irregular(3 * static_cast<std::size_t>(mesh.nodes));
  const std::vector<double> expected = plain_product<double>(mesh, stiffness, x);

  std::vector<double> y(x.size());
  add_brick_forces(brick_blocks(stiffness), mesh.elements.data(), mesh.elements.size(), x.data(), y.data());
  for (std::size_t i = 0; i < y.size(); ++i)
    CHECK(y[i] == Approx(expected[i]).margin(1e-14));
}

TEST_CASE("forces of elements with matrices of their own are those of the matrices") {
  const VoxelMesh mesh = irregular_mesh();
  const std::vector<double> x = irregular(3 * static_cast<std::size_t>(mesh.nodes));
  const std::vector<float> narrow(x.begin(), x.end());
  const std::array<BrickMatrix, 2> stiffness{brick_stiffness({1, 1, 1}, 0.3), brick_stiffness({0.2, 1, 0.5}, 0.1)};
  std::vector<float> matrices(2 * 576);
  for (std::size_t kind = 0; kind < 2; ++kind)
    Eigen::Map<Eigen::Matrix<float, 24, 24>>(matrices.data() + 576 * kind) = stiffness[kind].cast<float>();
  std::vector<std::int32_t> kinds(mesh.elements.size());
  std::vector<double> expected(x.size());
  for (std::size_t element = 0; element < kinds.size(); ++element) {
    kinds[element] = static_cast<std::int32_t>(element % 2);
    VoxelMesh alone = mesh;
    alone.elements = {mesh.elements[element]};
    const std::vector<double> part = plain_product<double>(alone, stiffness[element % 2], x);
    for (std::size_t i = 0; i < expected.size(); ++i)
      expected[i] += part[i];
  }
  std::vector<float> y(x.size());
  add_matrix_forces(matrices.data(), kinds.data(), mesh.elements.data(), mesh.elements.size(), narrow.data(),
                    y.data());
  for (std::size_t i = 0; i < y.size(); ++i)
    CHECK(static_cast<double>(y[i]) == Approx(expected[i]).margin(2e-5));
}
