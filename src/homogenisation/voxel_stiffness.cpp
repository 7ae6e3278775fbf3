#include "homogenisation/voxel_stiffness.hpp"

#include "crushwright/errors.hpp"
#include "homogenisation/brick_element.hpp"
#include "homogenisation/voxel_multigrid.hpp"
#include "homogenisation/voxel_solver.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace crushwright {
namespace {

constexpr int most_iterations = 2000;

using Displacements = Eigen::Matrix<double, 24, 1>;

/// One voxel solid under uniform macroscopic strains. Its displacement is that of the strain plus a periodic one.
class StrainCases {
public:
  StrainCases(const VoxelSolid& solid, double poissons_ratio, double tolerance)
      : mesh_(voxel_mesh(solid)), multigrid_(mesh_, solid.cells, poissons_ratio),
        brick_(brick_stiffness(mesh_.spacing, poissons_ratio)), tolerance_(tolerance),
        volume_(solid.edges[0] * solid.edges[1] * solid.edges[2]) {
    for (int strain = 0; strain < 6; ++strain)
      uniform_.push_back(brick_displacements(mesh_.spacing, Voigt::Unit(strain)));
  }

  /// The periodic displacement of a unit strain.
  std::vector<double> solve(int strain, VoxelStiffness& result) const {
    const std::size_t size = 3 * static_cast<std::size_t>(mesh_.nodes);
    std::vector<double> right_side(size);
    const Displacements forces = brick_ * uniform_[static_cast<std::size_t>(strain)];
    for (const auto& nodes : mesh_.elements)
      for (std::size_t corner = 0; corner < 8; ++corner)
        for (std::size_t axis = 0; axis < 3; ++axis)
          right_side[3 * static_cast<std::size_t>(nodes[corner]) + axis] -=
              forces(static_cast<Eigen::Index>(3 * corner + axis));
    // Forces of neighbours cancel inside the metal up to rounding; what is left there is not a load.
    const double rounding = 1e-13 * forces.cwiseAbs().maxCoeff();
    for (double& force : right_side)
      if (std::abs(force) < rounding)
        force = 0;
    std::vector<double> displacements(size, 0.0);
    const PcgResult solved = pcg([&](const auto& x, auto& y) { multigrid_.apply(x, y); },
                                 [&](const auto& r, auto& z) { multigrid_.precondition(r, z); }, right_side,
                                 displacements, tolerance_, most_iterations);
    result.iterations = std::max(result.iterations, solved.iterations);
    result.residual = std::max(result.residual, solved.residual);
    ++result.load_cases;
    if (!solved.reached)
      throw OutOfDomain(fmt::format("voxel stiffness: the relative residual is {:.2g} after {} iterations, the "
                                    "tolerance {:.2g}. Take another grid or a larger tolerance.",
                                    solved.residual, solved.iterations, tolerance_));
    return displacements;
  }

  /// Mean stress under one strain with its displacement.
  Voigt mean_stress(int strain, const std::vector<double>& displacements) const {
    Displacements sum = static_cast<double>(mesh_.elements.size()) * uniform_[static_cast<std::size_t>(strain)];
    for (const auto& nodes : mesh_.elements)
      for (std::size_t corner = 0; corner < 8; ++corner)
        for (std::size_t axis = 0; axis < 3; ++axis)
          sum(static_cast<Eigen::Index>(3 * corner + axis)) +=
              displacements[3 * static_cast<std::size_t>(nodes[corner]) + axis];
    const Displacements forces = brick_ * sum;
    Voigt stress;
    for (int other = 0; other < 6; ++other)
      stress(other) = uniform_[static_cast<std::size_t>(other)].dot(forces) / volume_;
    return stress;
  }

private:
  VoxelMesh mesh_;
  VoxelMultigrid multigrid_;
  BrickMatrix brick_;
  double tolerance_;
  double volume_;
  std::vector<Displacements> uniform_;
};

/// Place of a voxel after a turn, before any shift.
using Turn = std::array<int, 3> (*)(const std::array<int, 3>& place, int last);
std::array<int, 3> third_turn(const std::array<int, 3>& place, int) {
  return {place[1], place[2], place[0]};
}
std::array<int, 3> mirrored_third_turn(const std::array<int, 3>& place, int last) {
  return {last - place[1], last - place[2], last - place[0]};
}
std::array<int, 3> half_turn(const std::array<int, 3>& place, int last) {
  return {last - place[0], last - place[1], place[2]};
}
std::array<int, 3> mirrored_half_turn(const std::array<int, 3>& place, int last) {
  return {place[0], place[1], last - place[2]};
}

bool comes_back(const VoxelSolid& solid, Turn turn, const std::array<int, 3>& shift) {
  const int n = solid.cells[0];
  const auto index = [n](int x, int y, int z) {
    return (static_cast<std::size_t>(z) * static_cast<std::size_t>(n) + static_cast<std::size_t>(y)) *
               static_cast<std::size_t>(n) +
           static_cast<std::size_t>(x);
  };
  for (int z = 0; z < n; ++z)
    for (int y = 0; y < n; ++y)
      for (int x = 0; x < n; ++x) {
        const std::array<int, 3> to = turn({x, y, z}, n - 1);
        if (solid.metal[index(x, y, z)] !=
            solid.metal[index((to[0] + shift[0]) % n, (to[1] + shift[1]) % n, (to[2] + shift[2]) % n)])
          return false;
      }
  return true;
}

bool comes_back_somewhere(const VoxelSolid& solid, Turn turn) {
  const int n = solid.cells[0];
  const int step = n % 4 == 0 ? n / 4 : n % 2 == 0 ? n / 2 : n;
  for (int z = 0; z < n; z += step)
    for (int y = 0; y < n; y += step)
      for (int x = 0; x < n; x += step)
        if (comes_back(solid, turn, {x, y, z}))
          return true;
  return false;
}

StiffnessMatrix cubic_stiffness(const Voigt& under_x, const Voigt& under_shear) {
  StiffnessMatrix stiffness = StiffnessMatrix::Zero();
  stiffness.topLeftCorner<3, 3>().setConstant(0.5 * (under_x(1) + under_x(2)));
  stiffness.diagonal() << under_x(0), under_x(0), under_x(0), under_shear(3), under_shear(3), under_shear(3);
  return stiffness;
}

} // namespace

bool has_cubic_symmetry(const VoxelSolid& solid) {
  const bool cube = solid.cells[0] == solid.cells[1] && solid.cells[1] == solid.cells[2] &&
                    solid.edges[0] == solid.edges[1] && solid.edges[1] == solid.edges[2];
  return cube && (comes_back_somewhere(solid, third_turn) || comes_back_somewhere(solid, mirrored_third_turn)) &&
         (comes_back_somewhere(solid, half_turn) || comes_back_somewhere(solid, mirrored_half_turn));
}

VoxelStiffness voxel_stiffness(const VoxelSolid& solid, double poissons_ratio, double tolerance) {
  const StrainCases cases(solid, poissons_ratio, tolerance);
  VoxelStiffness result;
  if (has_cubic_symmetry(solid)) {
    const Voigt under_x = cases.mean_stress(0, cases.solve(0, result));
    const Voigt under_shear = cases.mean_stress(3, cases.solve(3, result));
    result.over_youngs_modulus = cubic_stiffness(under_x, under_shear);
    return result;
  }
  StiffnessMatrix stiffness;
  for (int strain = 0; strain < 6; ++strain)
    stiffness.col(strain) = cases.mean_stress(strain, cases.solve(strain, result));
  result.over_youngs_modulus = 0.5 * (stiffness + stiffness.transpose());
  return result;
}

} // namespace crushwright
