#include "crushwright/stiffness_matrix.hpp"

#include "crushwright/errors.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <numbers>
#include <string_view>
#include <vector>

namespace crushwright {

namespace {

const std::array<std::array<int, 2>, 6> voigt_pair{{{0, 0}, {1, 1}, {2, 2}, {1, 2}, {0, 2}, {0, 1}}};

/// Voigt strain to tensor and back; shear strains are engineering.
Eigen::Matrix3d strain_tensor(const Voigt& strain) {
  Eigen::Matrix3d tensor;
  for (std::size_t place = 0; place < 6; ++place) {
    const auto [i, j] = voigt_pair[place];
    const double part = strain[static_cast<int>(place)] * (i == j ? 1.0 : 0.5);
    tensor(i, j) = part;
    tensor(j, i) = part;
  }
  return tensor;
}

Voigt voigt_strain(const Eigen::Matrix3d& tensor) {
  Voigt strain;
  for (std::size_t place = 0; place < 6; ++place) {
    const auto [i, j] = voigt_pair[place];
    strain[static_cast<int>(place)] = tensor(i, j) * (i == j ? 1.0 : 2.0);
  }
  return strain;
}

Voigt voigt_stress(const Eigen::Matrix3d& tensor) {
  Voigt stress;
  for (std::size_t place = 0; place < 6; ++place) {
    const auto [i, j] = voigt_pair[place];
    stress[static_cast<int>(place)] = tensor(i, j);
  }
  return stress;
}

/// Unit stress along a unit vector.
Voigt pull_along(const Eigen::Vector3d& unit) {
  return voigt_stress(unit * unit.transpose());
}

Eigen::Vector3d unit_vector(const Eigen::Vector3d& direction) {
  const double length = direction.norm();
  if (!(length > 0) || !std::isfinite(length)) {
    throw OutOfDomain(
        fmt::format("direction ({:g}, {:g}, {:g}) has no length", direction[0], direction[1], direction[2]));
  }
  return direction / length;
}

void require_perpendicular(const Eigen::Vector3d& direction, const Eigen::Vector3d& transverse) {
  if (std::abs(direction.dot(transverse)) > 1e-9) {
    throw OutOfDomain(fmt::format("({:g}, {:g}, {:g}) is not perpendicular to ({:g}, {:g}, {:g})", transverse[0],
                                  transverse[1], transverse[2], direction[0], direction[1], direction[2]));
  }
}

/// Inverse of a stiffness, once it is known to be one.
StiffnessMatrix compliance(const StiffnessMatrix& stiffness) {
  if (!stiffness.allFinite()) {
    throw OutOfDomain("the stiffness holds a value that is not finite");
  }
  const StiffnessMatrix even = 0.5 * (stiffness + stiffness.transpose());
  const Eigen::SelfAdjointEigenSolver<StiffnessMatrix> modes(even);
  const double least = modes.eigenvalues()[0];
  // Below 1e-12 of the largest, a mode is round-off: the cell is a mechanism.
  if (!(least > 1e-12 * modes.eigenvalues()[5])) {
    const Voigt mode = modes.eigenvectors().col(0);
    throw OutOfDomain(fmt::format("the stiffness is not positive definite: nothing resists the strain xx {:.2g}, yy "
                                  "{:.2g}, zz {:.2g}, yz {:.2g}, "
                                  "xz {:.2g}, xy {:.2g} (least eigenvalue {:g}, greatest {:g})",
                                  mode[0], mode[1], mode[2], mode[3], mode[4], mode[5], least,
                                  modes.eigenvalues()[5]));
  }
  return even.inverse();
}

/// Engineering strain in new axes to engineering strain in the old ones.
StiffnessMatrix strain_turn(const Eigen::Matrix3d& axes) {
  StiffnessMatrix turn;
  for (int column = 0; column < 6; ++column) {
    turn.col(column) = voigt_strain(axes * strain_tensor(Voigt::Unit(column)) * axes.transpose());
  }
  return turn;
}

// Search for extremes of the stretch under unit pull, a quartic on the sphere.

double stretch(const StiffnessMatrix& softness, const Eigen::Vector3d& unit) {
  const Voigt pull = pull_along(unit);
  return pull.dot(softness * pull);
}

/// The axes, face diagonals and body diagonals.
const std::array<std::array<double, 3>, 13> plain_directions{{{0, 0, 1},
                                                              {0, 1, 0},
                                                              {1, 0, 0},
                                                              {0, 1, 1},
                                                              {1, 0, 1},
                                                              {1, 1, 0},
                                                              {0, 1, -1},
                                                              {1, 0, -1},
                                                              {1, -1, 0},
                                                              {1, 1, 1},
                                                              {1, 1, -1},
                                                              {1, -1, 1},
                                                              {1, -1, -1}}};

/// Directions over half the sphere some 7 degrees apart: a quartic has no peak so narrow that none of them lies on
/// it.
std::vector<Eigen::Vector3d> starts() {
  std::vector<Eigen::Vector3d> directions;
  const int steps = 12;
  for (int axis = 0; axis < 3; ++axis) {
    for (int i = 0; i < steps; ++i) {
      for (int j = 0; j < steps; ++j) {
        Eigen::Vector3d direction;
        direction[axis] = 1;
        direction[(axis + 1) % 3] = (2 * i + 1.0) / steps - 1;
        direction[(axis + 2) % 3] = (2 * j + 1.0) / steps - 1;
        directions.emplace_back(direction.normalized());
      }
    }
  }
  return directions;
}

/// Climbs from a direction by steps in the tangent plane that halve, down to `least_step`, when none is uphill. The
/// modulus is off by the order of the last step's square.
Eigen::Vector3d climbed(const StiffnessMatrix& softness, double sign, Eigen::Vector3d unit, double least_step) {
  double best = sign * stretch(softness, unit);
  for (double step = 0.06; step > least_step;) {
    const Eigen::Vector3d side = unit.unitOrthogonal();
    const Eigen::Vector3d up = unit.cross(side);
    bool climbing = false;
    for (int turn = 0; turn < 8 && !climbing; ++turn) {
      const double angle = std::numbers::pi * turn / 4;
      const Eigen::Vector3d next = (unit + step * (std::cos(angle) * side + std::sin(angle) * up)).normalized();
      const double rating = sign * stretch(softness, next);
      // Round-off alone must not move an exact axis.
      if (rating > best + 1e-14 * std::abs(best)) {
        best = rating;
        unit = next;
        climbing = true;
      }
    }
    step *= climbing ? 1.0 : 0.5;
  }
  return unit;
}

Eigen::Vector3d first_part_positive(const Eigen::Vector3d& unit) {
  for (int axis = 0; axis < 3; ++axis) {
    if (std::abs(unit[axis]) > 1e-6) {
      return unit[axis] > 0 ? unit : Eigen::Vector3d(-unit);
    }
  }
  return unit;
}

/// Direction of greatest (sign 1) or least (sign -1) stretch; the first of equals.
Eigen::Vector3d extreme_direction(const StiffnessMatrix& softness, double sign) {
  // Equal peaks of a cubic cell shall give a plain direction: axes and diagonals come first, and a later direction
  // has to beat them by more than round-off.
  const auto better = [&](const Eigen::Vector3d& first, const Eigen::Vector3d& second) {
    const double standing = stretch(softness, second);
    return sign * (stretch(softness, first) - standing) > 1e-10 * standing;
  };
  Eigen::Vector3d best(0, 0, 1);
  for (const auto& plain : plain_directions) {
    const Eigen::Vector3d candidate = Eigen::Vector3d(plain[0], plain[1], plain[2]).normalized();
    best = better(candidate, best) ? candidate : best;
  }
  Eigen::Vector3d peak(0, 0, 1);
  for (const Eigen::Vector3d& start : starts()) {
    const Eigen::Vector3d found = climbed(softness, sign, start, 1e-3);
    peak = better(found, peak) ? found : peak;
  }
  peak = climbed(softness, sign, peak, 1e-8);
  return first_part_positive(better(peak, best) ? peak : best);
}

// Rotations of a symmetry.

std::vector<Eigen::Matrix3d> cubic_rotations() {
  std::vector<Eigen::Matrix3d> rotations;
  std::array<int, 3> order{0, 1, 2};
  do {
    for (int signs = 0; signs < 8; ++signs) {
      Eigen::Matrix3d axes = Eigen::Matrix3d::Zero();
      for (int k = 0; k < 3; ++k) {
        axes(order[static_cast<std::size_t>(k)], k) = (signs >> k) % 2 == 0 ? 1 : -1;
      }
      if (axes.determinant() > 0) {
        rotations.push_back(axes);
      }
    }
  } while (std::next_permutation(order.begin(), order.end()));
  return rotations;
}

std::vector<Eigen::Matrix3d> tetragonal_rotations() {
  std::vector<Eigen::Matrix3d> rotations;
  for (const Eigen::Matrix3d& axes : cubic_rotations()) {
    if (axes(2, 2) != 0) {
      rotations.push_back(axes);
    }
  }
  return rotations;
}

Eigen::Matrix3d turned(double angle, const Eigen::Vector3d& axis) {
  return Eigen::AngleAxisd(angle, axis.normalized()).toRotationMatrix();
}

std::vector<Eigen::Matrix3d> hexagonal_rotations() {
  std::vector<Eigen::Matrix3d> rotations;
  const Eigen::Matrix3d half_turn = turned(std::numbers::pi, Eigen::Vector3d::UnitX());
  for (int sixth = 0; sixth < 6; ++sixth) {
    const Eigen::Matrix3d about_z = turned(std::numbers::pi * sixth / 3, Eigen::Vector3d::UnitZ());
    rotations.push_back(about_z);
    rotations.emplace_back(about_z * half_turn);
  }
  return rotations;
}

/// The cubic rotations, and eighths of a turn about the axes: a stiffness that is the same in all of them is the same
/// in every rotation.
std::vector<Eigen::Matrix3d> isotropic_rotations() {
  std::vector<Eigen::Matrix3d> rotations = cubic_rotations();
  for (int axis = 0; axis < 3; ++axis) {
    for (int eighth = 1; eighth < 8; eighth += 2) {
      rotations.push_back(turned(std::numbers::pi * eighth / 4, Eigen::Vector3d::Unit(axis)));
    }
  }
  return rotations;
}

std::vector<Eigen::Matrix3d> rotations_of(std::string_view symmetry) {
  if (symmetry == "cubic") {
    return cubic_rotations();
  }
  if (symmetry == "tetragonal") {
    return tetragonal_rotations();
  }
  if (symmetry == "hexagonal") {
    return hexagonal_rotations();
  }
  if (symmetry == "isotropic") {
    return isotropic_rotations();
  }
  throw OutOfDomain(
      fmt::format("symmetry '{}' is not known: cubic, tetragonal, hexagonal and isotropic are", symmetry));
}

} // namespace

StiffnessMatrix isotropic_stiffness(double youngs_modulus, double poissons_ratio) {
  if (!(youngs_modulus > 0) || !std::isfinite(youngs_modulus)) {
    throw OutOfDomain(fmt::format("Young's modulus {:g} is not positive", youngs_modulus));
  }
  if (!(poissons_ratio > -1 && poissons_ratio < 0.5)) {
    throw OutOfDomain(fmt::format("Poisson's ratio {:g} is outside -1 to 0.5", poissons_ratio));
  }
  const double shear = youngs_modulus / (2 * (1 + poissons_ratio));
  const double lame = youngs_modulus * poissons_ratio / ((1 + poissons_ratio) * (1 - 2 * poissons_ratio));
  StiffnessMatrix stiffness = StiffnessMatrix::Zero();
  stiffness.topLeftCorner<3, 3>().setConstant(lame);
  stiffness.diagonal().array() += shear;
  stiffness.diagonal().head<3>().array() += shear;
  return stiffness;
}

StiffnessMatrix in_turned_axes(const StiffnessMatrix& stiffness, const Eigen::Matrix3d& axes) {
  const double skew = (axes.transpose() * axes - Eigen::Matrix3d::Identity()).cwiseAbs().maxCoeff();
  if (!(skew < 1e-9)) {
    throw OutOfDomain(
        fmt::format("the axes are not a rotation: they miss unit length or a right angle by {:g}", skew));
  }
  const StiffnessMatrix turn = strain_turn(axes);
  return turn.transpose() * stiffness * turn;
}

double youngs_modulus(const StiffnessMatrix& stiffness, const Eigen::Vector3d& direction) {
  return 1 / stretch(compliance(stiffness), unit_vector(direction));
}

double poissons_ratio(const StiffnessMatrix& stiffness, const Eigen::Vector3d& direction,
                      const Eigen::Vector3d& transverse) {
  const Eigen::Vector3d along = unit_vector(direction);
  const Eigen::Vector3d across = unit_vector(transverse);
  require_perpendicular(along, across);
  const Voigt strain = compliance(stiffness) * pull_along(along);
  return -pull_along(across).dot(strain) / pull_along(along).dot(strain);
}

double shear_modulus(const StiffnessMatrix& stiffness, const Eigen::Vector3d& direction,
                     const Eigen::Vector3d& transverse) {
  const Eigen::Vector3d along = unit_vector(direction);
  const Eigen::Vector3d across = unit_vector(transverse);
  require_perpendicular(along, across);
  const Voigt shear = voigt_stress(along * across.transpose() + across * along.transpose());
  return 1 / shear.dot(compliance(stiffness) * shear);
}

double bulk_modulus_voigt(const StiffnessMatrix& stiffness) {
  compliance(stiffness); // refuses what is not positive definite
  return stiffness.topLeftCorner<3, 3>().sum() / 9;
}

double bulk_modulus_reuss(const StiffnessMatrix& stiffness) {
  return 1 / compliance(stiffness).topLeftCorner<3, 3>().sum();
}

double zener_ratio(const StiffnessMatrix& stiffness) {
  compliance(stiffness); // refuses what is not positive definite
  const double axial = stiffness.diagonal().head<3>().mean();
  const double lateral = (stiffness(0, 1) + stiffness(0, 2) + stiffness(1, 2)) / 3;
  const double shear = stiffness.diagonal().tail<3>().mean();
  return 2 * shear / (axial - lateral);
}

double universal_anisotropy(const StiffnessMatrix& stiffness) {
  const auto axial = [](const StiffnessMatrix& c) { return c.diagonal().head<3>().sum(); };
  const auto lateral = [](const StiffnessMatrix& c) { return c(0, 1) + c(0, 2) + c(1, 2); };
  const auto shear = [](const StiffnessMatrix& c) { return c.diagonal().tail<3>().sum(); };
  const StiffnessMatrix s = compliance(stiffness);
  const double shear_voigt = (axial(stiffness) - lateral(stiffness)) / 15 + shear(stiffness) / 5;
  const double shear_reuss = 15 / (4 * (axial(s) - lateral(s)) + 3 * shear(s));
  return 5 * shear_voigt / shear_reuss + bulk_modulus_voigt(stiffness) / bulk_modulus_reuss(stiffness) - 6;
}

ModulusExtremes modulus_extremes(const StiffnessMatrix& stiffness) {
  const StiffnessMatrix softness = compliance(stiffness);
  ModulusExtremes extremes;
  extremes.stiffest = extreme_direction(softness, -1);
  extremes.greatest = 1 / stretch(softness, extremes.stiffest);
  extremes.softest = extreme_direction(softness, 1);
  extremes.least = 1 / stretch(softness, extremes.softest);
  return extremes;
}

double symmetry_error(const StiffnessMatrix& stiffness, const char* symmetry) {
  double error = 0;
  for (const Eigen::Matrix3d& axes : rotations_of(symmetry)) {
    error = std::max(error, (stiffness - in_turned_axes(stiffness, axes)).norm() / stiffness.norm());
  }
  return error;
}

} // namespace crushwright
