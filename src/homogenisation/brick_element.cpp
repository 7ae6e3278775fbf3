#include "homogenisation/brick_element.hpp"

#include "crushwright/stiffness_matrix.hpp"

#include <cmath>

namespace crushwright {
namespace {

/// Derivatives of the eight shape functions; shape = (3, 8). `at` in [0, 1]³.
Eigen::Matrix<double, 3, 8> shape_slopes(const std::array<double, 3>& spacing, const std::array<double, 3>& at) {
  Eigen::Matrix<double, 3, 8> slopes;
  for (int corner = 0; corner < 8; ++corner)
    for (int axis = 0; axis < 3; ++axis) {
      double slope = 1;
      for (int other = 0; other < 3; ++other) {
        const bool far = (corner >> other) & 1;
        const auto o = static_cast<std::size_t>(other);
        if (other == axis)
          slope *= (far ? 1 : -1) / spacing[o];
        else
          slope *= far ? at[o] : 1 - at[o];
      }
      slopes(axis, corner) = slope;
    }
  return slopes;
}

BrickStrain strain_from(const Eigen::Matrix<double, 3, 8>& slopes) {
  BrickStrain strain = BrickStrain::Zero();
  for (int corner = 0; corner < 8; ++corner) {
    const int x = 3 * corner;
    const int y = x + 1;
    const int z = x + 2;
    strain(0, x) = slopes(0, corner);
    strain(1, y) = slopes(1, corner);
    strain(2, z) = slopes(2, corner);
    strain(3, y) = slopes(2, corner);
    strain(3, z) = slopes(1, corner);
    strain(4, x) = slopes(2, corner);
    strain(4, z) = slopes(0, corner);
    strain(5, x) = slopes(1, corner);
    strain(5, y) = slopes(0, corner);
  }
  return strain;
}

} // namespace

std::array<BrickStrain, 8> brick_strains(const std::array<double, 3>& spacing) {
  const double inner = 0.5 - 0.5 / std::sqrt(3.0);
  std::array<BrickStrain, 8> strains;
  Eigen::Matrix<double, 1, 24> mean_dilatation = Eigen::Matrix<double, 1, 24>::Zero();
  for (std::size_t point = 0; point < 8; ++point) {
    const std::array<double, 3> at{(point & 1) ? 1 - inner : inner, (point & 2) ? 1 - inner : inner,
                                   (point & 4) ? 1 - inner : inner};
    strains[point] = strain_from(shape_slopes(spacing, at));
    mean_dilatation += strains[point].topRows<3>().colwise().sum() / 8;
  }
  for (BrickStrain& strain : strains) {
    const Eigen::Matrix<double, 1, 24> shift = (mean_dilatation - strain.topRows<3>().colwise().sum()) / 3;
    strain.topRows<3>().rowwise() += shift;
  }
  return strains;
}

BrickMatrix brick_stiffness(const std::array<double, 3>& spacing, double poissons_ratio) {
  const StiffnessMatrix metal = isotropic_stiffness(1, poissons_ratio);
  const double weight = spacing[0] * spacing[1] * spacing[2] / 8;
  BrickMatrix stiffness = BrickMatrix::Zero();
  for (const BrickStrain& strain : brick_strains(spacing))
    stiffness += weight * strain.transpose() * metal * strain;
  return 0.5 * (stiffness + stiffness.transpose());
}

Eigen::Matrix<double, 24, 1> brick_displacements(const std::array<double, 3>& spacing,
                                                 const Eigen::Matrix<double, 6, 1>& strain) {
  Eigen::Matrix3d gradient;
  gradient << strain(0), strain(5) / 2, strain(4) / 2, strain(5) / 2, strain(1), strain(3) / 2, strain(4) / 2,
      strain(3) / 2, strain(2);
  Eigen::Matrix<double, 24, 1> displacements;
  for (int corner = 0; corner < 8; ++corner) {
    const Eigen::Vector3d place((corner & 1) ? spacing[0] : 0, (corner & 2) ? spacing[1] : 0,
                                (corner & 4) ? spacing[2] : 0);
    displacements.segment<3>(3 * corner) = gradient * place;
  }
  return displacements;
}

} // namespace crushwright
