#include "crushwright/stiffness_matrix.hpp"

#include "crushwright/errors.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

using namespace crushwright;

namespace {

const Eigen::Vector3d x = Eigen::Vector3d::UnitX();
const Eigen::Vector3d y = Eigen::Vector3d::UnitY();
const Eigen::Vector3d z = Eigen::Vector3d::UnitZ();

StiffnessMatrix cubic(double c11, double c12, double c44) {
  StiffnessMatrix stiffness = StiffnessMatrix::Zero();
  stiffness.topLeftCorner<3, 3>().setConstant(c12);
  stiffness.diagonal() << c11, c11, c11, c44, c44, c44;
  return stiffness;
}

StiffnessMatrix tetragonal() {
  StiffnessMatrix stiffness = StiffnessMatrix::Zero();
  stiffness.topLeftCorner<3, 3>() << 5, 3, 2, 3, 5, 2, 2, 2, 14;
  stiffness.diagonal().tail<3>() << 3, 3, 4;
  return stiffness;
}

/// Octet of slender pin-jointed struts with relative density 1, from its twelve strut directions: C = ρ̄/12 Σ nnnn.
/// C11 = 1/6, C12 = C44 = 1/12 (Deshpande, Fleck and Ashby, 2001; derived again).
StiffnessMatrix slender_octet() {
  return cubic(1.0 / 6, 1.0 / 12, 1.0 / 12);
}

/// Far from any symmetry: eigenvalues from 1 to 1000.
StiffnessMatrix uneven(unsigned seed) {
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  StiffnessMatrix entries;
  for (int i = 0; i < 6; ++i) {
    for (int j = 0; j < 6; ++j) {
      entries(i, j) = normal(random);
    }
  }
  const StiffnessMatrix turn = entries.householderQr().householderQ();
  Voigt values;
  values << 1, 4, 16, 60, 250, 1000;
  return turn * values.asDiagonal() * turn.transpose();
}

Eigen::Matrix3d some_rotation() {
  return (Eigen::AngleAxisd(0.7, z) * Eigen::AngleAxisd(-1.1, x) * Eigen::AngleAxisd(2.3, z)).toRotationMatrix();
}

double modulus_at(const StiffnessMatrix& softness, double polar, double around) {
  const Eigen::Vector3d n(std::sin(polar) * std::cos(around), std::sin(polar) * std::sin(around), std::cos(polar));
  Voigt pull;
  pull << n[0] * n[0], n[1] * n[1], n[2] * n[2], n[1] * n[2], n[0] * n[2], n[0] * n[1];
  return 1 / pull.dot(softness * pull);
}

/// Every half degree over half the sphere, then every thousandth of a degree about the best of them.
double brute_force(const StiffnessMatrix& stiffness, double sign) {
  const StiffnessMatrix softness = stiffness.inverse();
  const double degree = std::numbers::pi / 180;
  double best = modulus_at(softness, 0, 0);
  double best_polar = 0;
  double best_around = 0;
  const auto scan = [&](double polar_middle, double around_middle, double step, int polar_steps, int around_steps) {
    for (int i = -polar_steps; i <= polar_steps; ++i) {
      for (int j = -around_steps; j <= around_steps; ++j) {
        const double polar = polar_middle + i * step;
        const double around = around_middle + j * step;
        const double modulus = modulus_at(softness, polar, around);
        if (sign * modulus > sign * best) {
          best = modulus;
          best_polar = polar;
          best_around = around;
        }
      }
    }
  };
  scan(45 * degree, 180 * degree, 0.5 * degree, 90, 360);
  scan(best_polar, best_around, 0.01 * degree, 100, 100);
  scan(best_polar, best_around, 0.001 * degree, 20, 20);
  return best;
}

void check_extremes(const StiffnessMatrix& stiffness) {
  const ModulusExtremes extremes = modulus_extremes(stiffness);
  const double greatest = brute_force(stiffness, 1);
  const double least = brute_force(stiffness, -1);
  // Never worse, and better by no more than the brute force's own mesh: half a thousandth of a degree from a peak
  // costs 1e-7 even of a modulus that changes a thousandfold.
  CHECK(extremes.greatest >= greatest * (1 - 1e-12));
  CHECK(extremes.least <= least * (1 + 1e-12));
  CHECK(extremes.greatest == Approx(greatest).epsilon(1e-6));
  CHECK(extremes.least == Approx(least).epsilon(1e-6));
  CHECK(youngs_modulus(stiffness, extremes.stiffest) == Approx(extremes.greatest).epsilon(1e-12));
  CHECK(youngs_modulus(stiffness, extremes.softest) == Approx(extremes.least).epsilon(1e-12));
  CHECK(extremes.stiffest.norm() == Approx(1));
}

} // namespace

TEST_CASE("an isotropic solid has one modulus and one Poisson's ratio in every direction") {
  const StiffnessMatrix stiffness = isotropic_stiffness(70e9, 0.33);
  const Eigen::Matrix3d axes = some_rotation();
  CHECK(youngs_modulus(stiffness, axes.col(0)) == Approx(70e9).epsilon(1e-12));
  CHECK(poissons_ratio(stiffness, axes.col(0), axes.col(1)) == Approx(0.33).epsilon(1e-12));
  CHECK(shear_modulus(stiffness, axes.col(0), axes.col(1)) == Approx(70e9 / 2.66).epsilon(1e-12));
  CHECK(bulk_modulus_voigt(stiffness) == Approx(70e9 / (3 * 0.34)).epsilon(1e-12));
  CHECK(bulk_modulus_reuss(stiffness) == Approx(70e9 / (3 * 0.34)).epsilon(1e-12));
  CHECK(zener_ratio(stiffness) == Approx(1).epsilon(1e-12));
  CHECK(universal_anisotropy(stiffness) == Approx(0).margin(1e-12));
  CHECK((in_turned_axes(stiffness, axes) - stiffness).norm() < 1e-12 * stiffness.norm());
  CHECK(symmetry_error(stiffness, "isotropic") < 1e-14);
}

TEST_CASE("a cubic cell's modulus follows its closed form in every direction") {
  const double c11 = 5;
  const double c12 = 2;
  const double c44 = 4;
  const StiffnessMatrix stiffness = cubic(c11, c12, c44);
  const double s11 = (c11 + c12) / ((c11 - c12) * (c11 + 2 * c12));
  const double s12 = -c12 / ((c11 - c12) * (c11 + 2 * c12));
  const Eigen::Matrix3d axes = some_rotation();
  for (const Eigen::Vector3d& n : {Eigen::Vector3d(z), Eigen::Vector3d(1, 1, 0), Eigen::Vector3d(1, 1, 1),
                                   Eigen::Vector3d(axes.col(0)), Eigen::Vector3d(axes.col(2))}) {
    const Eigen::Vector3d q = n.normalized().cwiseAbs2();
    const double mix = q[0] * q[1] + q[1] * q[2] + q[2] * q[0];
    CHECK(youngs_modulus(stiffness, n) == Approx(1 / (s11 - 2 * (s11 - s12 - 0.5 / c44) * mix)).epsilon(1e-12));
  }
  CHECK(poissons_ratio(stiffness, z, Eigen::Vector3d(1, 2, 0)) == Approx(c12 / (c11 + c12)).epsilon(1e-12));
  CHECK(shear_modulus(stiffness, x, y) == Approx(c44).epsilon(1e-12));
  CHECK(shear_modulus(stiffness, {1, 1, 0}, {1, -1, 0}) == Approx((c11 - c12) / 2).epsilon(1e-12));
  CHECK(zener_ratio(stiffness) == Approx(2 * c44 / (c11 - c12)).epsilon(1e-12));
  CHECK(bulk_modulus_voigt(stiffness) == Approx((c11 + 2 * c12) / 3).epsilon(1e-12));
  CHECK(bulk_modulus_reuss(stiffness) == Approx((c11 + 2 * c12) / 3).epsilon(1e-12));
  // For a cubic solid the universal index is 6/5 (√A - 1/√A)².
  const double zener = zener_ratio(stiffness);
  CHECK(universal_anisotropy(stiffness) ==
        Approx(1.2 * std::pow(std::sqrt(zener) - 1 / std::sqrt(zener), 2)).epsilon(1e-12));
}

TEST_CASE("a slender octet has 1/9, 1/6 and 1/5 of its density as modulus and a Poisson's ratio of a third") {
  const StiffnessMatrix stiffness = slender_octet();
  CHECK(youngs_modulus(stiffness, x) == Approx(1.0 / 9).epsilon(1e-12));
  CHECK(youngs_modulus(stiffness, {1, 1, 0}) == Approx(1.0 / 6).epsilon(1e-12));
  CHECK(youngs_modulus(stiffness, {1, 1, 1}) == Approx(1.0 / 5).epsilon(1e-12));
  CHECK(poissons_ratio(stiffness, x, y) == Approx(1.0 / 3).epsilon(1e-12));
  CHECK(zener_ratio(stiffness) == Approx(2).epsilon(1e-12));
}

TEST_CASE("turning the axes and the load together changes nothing") {
  const StiffnessMatrix stiffness = uneven(7);
  const Eigen::Matrix3d axes = some_rotation();
  const StiffnessMatrix turned = in_turned_axes(stiffness, axes);
  const Eigen::Vector3d along = Eigen::Vector3d(1, 2, -1).normalized();
  const Eigen::Vector3d across = Eigen::Vector3d(1, 0, 1).normalized();
  // A direction's parts in the new axes are axes^T times its parts in the old ones.
  CHECK(youngs_modulus(turned, axes.transpose() * along) == Approx(youngs_modulus(stiffness, along)).epsilon(1e-9));
  CHECK(poissons_ratio(turned, axes.transpose() * along, axes.transpose() * across) ==
        Approx(poissons_ratio(stiffness, along, across)).epsilon(1e-9));
  CHECK(shear_modulus(turned, axes.transpose() * along, axes.transpose() * across) ==
        Approx(shear_modulus(stiffness, along, across)).epsilon(1e-9));
  CHECK(universal_anisotropy(turned) == Approx(universal_anisotropy(stiffness)).epsilon(1e-9));
  CHECK(bulk_modulus_reuss(turned) == Approx(bulk_modulus_reuss(stiffness)).epsilon(1e-9));
  CHECK((in_turned_axes(turned, axes.transpose()) - stiffness).norm() < 1e-12 * stiffness.norm());
}

TEST_CASE("a quarter turn about z swaps x and y") {
  const StiffnessMatrix stiffness = uneven(3);
  Eigen::Matrix3d axes;
  axes << 0, -1, 0, 1, 0, 0, 0, 0, 1; // new x is the old y, new y the old -x
  const StiffnessMatrix turned = in_turned_axes(stiffness, axes);
  CHECK(turned(0, 0) == Approx(stiffness(1, 1)));
  CHECK(turned(1, 1) == Approx(stiffness(0, 0)));
  CHECK(turned(3, 3) == Approx(stiffness(4, 4)));
  CHECK(turned(0, 3) == Approx(-stiffness(1, 4)));
}

TEST_CASE("equal strain bounds equal stress from above") {
  for (unsigned seed = 1; seed < 6; ++seed) {
    const StiffnessMatrix stiffness = uneven(seed);
    CHECK(bulk_modulus_voigt(stiffness) > bulk_modulus_reuss(stiffness));
    CHECK(universal_anisotropy(stiffness) > 0);
  }
}

TEST_CASE("the stiffest and softest directions of a cubic cell are its axes and its body diagonals") {
  const ModulusExtremes octet = modulus_extremes(slender_octet());
  CHECK(octet.greatest == Approx(1.0 / 5).epsilon(1e-9));
  CHECK((octet.stiffest - Eigen::Vector3d(1, 1, 1).normalized()).norm() < 1e-6);
  CHECK(octet.least == Approx(1.0 / 9).epsilon(1e-9));
  CHECK((octet.softest - z).norm() < 1e-6);
  const ModulusExtremes upright = modulus_extremes(cubic(5, 1, 0.1));
  CHECK((upright.stiffest - z).norm() < 1e-6);
  CHECK((upright.softest - Eigen::Vector3d(1, 1, 1).normalized()).norm() < 1e-6);
}

TEST_CASE("the extremes found are those of a search by brute force") {
  check_extremes(slender_octet());
  check_extremes(in_turned_axes(slender_octet(), some_rotation()));
  check_extremes(tetragonal());
  check_extremes(in_turned_axes(tetragonal(), some_rotation()));
  for (unsigned seed = 1; seed < 9; ++seed) {
    check_extremes(uneven(seed));
  }
}

TEST_CASE("an isotropic solid is as stiff one way as the other, and [001] stands for all") {
  const ModulusExtremes extremes = modulus_extremes(isotropic_stiffness(1, 0.3));
  CHECK(extremes.stiffest == z);
  CHECK(extremes.softest == z);
  CHECK(extremes.greatest == Approx(extremes.least).epsilon(1e-12));
}

TEST_CASE("a stiffness has the symmetry it was built with and no more") {
  CHECK(symmetry_error(slender_octet(), "cubic") < 1e-14);
  CHECK(symmetry_error(slender_octet(), "tetragonal") < 1e-14);
  CHECK(symmetry_error(slender_octet(), "isotropic") > 0.1);
  CHECK(symmetry_error(tetragonal(), "tetragonal") < 1e-14);
  CHECK(symmetry_error(tetragonal(), "cubic") > 0.1);
  CHECK(symmetry_error(tetragonal(), "hexagonal") > 0.01);
  StiffnessMatrix hexagonal = tetragonal();
  hexagonal(5, 5) = (hexagonal(0, 0) - hexagonal(0, 1)) / 2;
  CHECK(symmetry_error(hexagonal, "hexagonal") < 1e-14);
  CHECK(symmetry_error(uneven(1), "tetragonal") > 0.1);
}

TEST_CASE("what is not a stiffness or not a direction is refused with its value") {
  CHECK_THROWS_WITH(isotropic_stiffness(0, 0.3), "Young's modulus 0 is not positive");
  CHECK_THROWS_WITH(isotropic_stiffness(1, 0.5), "Poisson's ratio 0.5 is outside -1 to 0.5");
  CHECK_THROWS_WITH(youngs_modulus(slender_octet(), Eigen::Vector3d::Zero()), "direction (0, 0, 0) has no length");
  CHECK_THROWS_WITH(poissons_ratio(slender_octet(), x, Eigen::Vector3d(1, 1, 0)),
                    "(0.707107, 0.707107, 0) is not perpendicular to (1, 0, 0)");
  CHECK_THROWS_WITH(symmetry_error(slender_octet(), "round"),
                    "symmetry 'round' is not known: cubic, tetragonal, hexagonal and isotropic are");
  CHECK_THROWS_WITH(in_turned_axes(slender_octet(), 2 * Eigen::Matrix3d::Identity()),
                    "the axes are not a rotation: they miss unit length or a right angle by 3");
}

TEST_CASE("a mechanism is refused with the strain that nothing resists") {
  CHECK_THROWS_WITH(youngs_modulus(cubic(1, 0, 0), z),
                    Catch::Contains("nothing resists the strain xx 0, yy 0, zz 0, yz ") &&
                        Catch::Contains("least eigenvalue 0, greatest 1"));
  CHECK_THROWS_AS(zener_ratio(cubic(1, 2, 1)), OutOfDomain);
  CHECK_THROWS_AS(bulk_modulus_voigt(cubic(1, 2, 1)), OutOfDomain);
  CHECK_THROWS_AS(modulus_extremes(cubic(1, 0.2, -1)), OutOfDomain);
}
