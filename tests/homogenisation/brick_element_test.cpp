#include "homogenisation/brick_element.hpp"

#include "crushwright/stiffness_matrix.hpp"

#include <Eigen/Eigenvalues>
#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

const std::array<double, 3> flat_box{0.3, 0.2, 0.1};

Eigen::Matrix<double, 24, 1> turned_a_little(const std::array<double, 3>& spacing, const Eigen::Vector3d& axis) {
  Eigen::Matrix<double, 24, 1> displacements;
  for (int corner = 0; corner < 8; ++corner) {
    const Eigen::Vector3d place((corner & 1) ? spacing[0] : 0, (corner & 2) ? spacing[1] : 0,
                                (corner & 4) ? spacing[2] : 0);
    displacements.segment<3>(3 * corner) = axis.cross(place);
  }
  return displacements;
}

} // namespace

TEST_CASE("moving or turning a brick as a whole stores no energy") {
  const BrickMatrix stiffness = brick_stiffness(flat_box, 0.3);
  for (int axis = 0; axis < 3; ++axis) {
    Eigen::Matrix<double, 24, 1> shift = Eigen::Matrix<double, 24, 1>::Zero();
    for (int corner = 0; corner < 8; ++corner)
      shift(3 * corner + axis) = 1;
    CHECK((stiffness * shift).norm() < 1e-14);
    CHECK((stiffness * turned_a_little(flat_box, Eigen::Vector3d::Unit(axis))).norm() < 1e-15);
  }
}

TEST_CASE("a brick has six motions without energy and no more") {
  const Eigen::SelfAdjointEigenSolver<BrickMatrix> modes(brick_stiffness(flat_box, 0.3));
  const double greatest = modes.eigenvalues().maxCoeff();
  CHECK(std::abs(modes.eigenvalues()(5)) < 1e-14 * greatest);
  CHECK(modes.eigenvalues()(6) > 1e-3 * greatest);
}

TEST_CASE("a brick under uniform strain stores the energy of the metal") {
  const StiffnessMatrix metal = isotropic_stiffness(1, 0.3);
  const BrickMatrix stiffness = brick_stiffness(flat_box, 0.3);
  Voigt strain;
  strain << 0.7, -0.2, 0.4, 0.3, -0.6, 0.1;
  const auto displacements = brick_displacements(flat_box, strain);
  const double volume = flat_box[0] * flat_box[1] * flat_box[2];
  CHECK(displacements.dot(stiffness * displacements) == Approx(volume * strain.dot(metal * strain)).epsilon(1e-13));
  for (const BrickStrain& at_point : brick_strains(flat_box))
    CHECK((at_point * displacements - strain).norm() < 1e-13);
}

TEST_CASE("metal that keeps its volume stiffens a brick against its mean dilatation alone") {
  const Eigen::SelfAdjointEigenSolver<BrickMatrix> modes(brick_stiffness({1, 1, 1}, 0.499999));
  const auto& values = modes.eigenvalues();
  CHECK(values(23) > 1e4);
  CHECK(values(22) < 2);
}
