#include "homogenisation/beam.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace crushwright;

namespace {

const RoundSection section{0.2, 0.3, true};

Beam slanted_beam() {
  const Eigen::Vector3d span(0.6, -0.3, 0.5);
  return {span, span.unitOrthogonal(), {0.05, 0.1, 0.08}, {0.02, 0.04, 0.12}};
}

Beam upright_beam() {
  return {{0, 0, 2}, {1, 0, 0}, {}, {}};
}

/// Motion of both node centres when the space moves as one.
Vector12 rigid_motion(const Beam& beam, const Eigen::Vector3d& shift, const Eigen::Vector3d& turn) {
  Vector12 motion;
  motion << shift, turn, shift + turn.cross(beam.span), turn;
  return motion;
}

/// Deflection of the second end over a unit force on it along x, the first end held.
double tip_compliance(const Beam& beam, const RoundSection& of) {
  const Eigen::Matrix<double, 6, 6> tip = beam_stiffness(beam, of).bottomRightCorner<6, 6>();
  return tip.inverse()(0, 0);
}

} // namespace

TEST_CASE("a rigid motion of a beam stores no energy, stiff ends or not") {
  const Beam beam = slanted_beam();
  const Matrix12 stiffness = beam_stiffness(beam, section);
  CHECK((stiffness - stiffness.transpose()).norm() < 1e-12 * stiffness.norm());
  for (int axis = 0; axis < 3; ++axis) {
    const Eigen::Vector3d unit = Eigen::Vector3d::Unit(axis);
    CHECK((stiffness * rigid_motion(beam, unit, Eigen::Vector3d::Zero())).norm() < 1e-12 * stiffness.norm());
    CHECK((stiffness * rigid_motion(beam, Eigen::Vector3d::Zero(), unit)).norm() < 1e-12 * stiffness.norm());
  }
  const Eigen::VectorXd energies = Eigen::SelfAdjointEigenSolver<Matrix12>(stiffness).eigenvalues();
  CHECK(energies[5] < 1e-12 * energies[11]);
  CHECK(energies[6] > 1e-6 * energies[11]);
}

TEST_CASE("a cantilever's tip goes down by F l^3 / 3EI and F l / kGA") {
  const double bending = std::numbers::pi * std::pow(0.2, 4) / 64;
  const double shear = 6 * 1.3 / (7 + 6 * 0.3) * std::numbers::pi / 4 * 0.04 / (2 * 1.3);
  CHECK(section.shear_stiffness() == Approx(shear).epsilon(1e-12));
  CHECK(tip_compliance(upright_beam(), section) == Approx(8 / (3 * bending) + 2 / shear).epsilon(1e-9));
  CHECK(tip_compliance(upright_beam(), {0.2, 0.3, false}) == Approx(8 / (3 * bending)).epsilon(1e-9));
}

TEST_CASE("a rigid root shortens the cantilever, a rigid tip tilts with it") {
  const double bending = std::numbers::pi * std::pow(0.2, 4) / 64;
  Beam beam = upright_beam();
  beam.from.side = 0.5; // the side axis is x, the direction of the force
  CHECK(tip_compliance(beam, {0.2, 0.3, false}) == Approx(std::pow(1.5, 3) / (3 * bending)).epsilon(1e-9));
  beam.from.side = 0;
  beam.to.side = 0.5;
  // ∫ x² dx / EI over the clear part, x from the tip.
  CHECK(tip_compliance(beam, {0.2, 0.3, false}) ==
        Approx((std::pow(2, 3) - std::pow(0.5, 3)) / (3 * bending)).epsilon(1e-9));
  beam.to.side = 0;
  beam.to.up = 0.5;
  CHECK(tip_compliance(beam, {0.2, 0.3, false}) == Approx(8 / (3 * bending)).epsilon(1e-9));
}

TEST_CASE("a beam stretches by l / EA and twists by l / GJ over its clear length") {
  Beam beam = upright_beam();
  beam.from.axial = 0.3;
  beam.to.axial = 0.2;
  const Matrix12 stiffness = beam_stiffness(beam, section);
  CHECK(stiffness(8, 8) == Approx(std::numbers::pi / 4 * 0.04 / 1.5).epsilon(1e-12));
  const double polar = std::numbers::pi * std::pow(0.2, 4) / 32;
  CHECK(stiffness(11, 11) == Approx(polar / (2 * 1.3) / 1.5).epsilon(1e-12));
}

TEST_CASE("a beam pushed together carries compression, one bent to an S carries equal moments") {
  const Beam beam = upright_beam();
  Vector12 motion = Vector12::Zero();
  motion[8] = -0.01;
  CHECK(beam_forces(beam, section, motion).compression == Approx(0.01 * section.area() / 2).epsilon(1e-12));
  motion.setZero();
  motion[6] = 0.01;
  const BeamForces sway = beam_forces(beam, {0.2, 0.3, false}, motion);
  const double moment = 6 * section.second_moment() * 0.01 / 4;
  CHECK(sway.compression == Approx(0).margin(1e-15));
  CHECK(sway.moment_from == Approx(moment).epsilon(1e-9));
  CHECK(sway.moment_to == Approx(moment).epsilon(1e-9));
}
