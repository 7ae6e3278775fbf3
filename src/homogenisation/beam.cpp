#include "homogenisation/beam.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <numbers>

namespace crushwright {

namespace {

/// Rows: along the beam, side, up, in cell axes.
Eigen::Matrix3d own_axes(const Beam& beam) {
  const Eigen::Vector3d along = beam.span.normalized();
  Eigen::Matrix3d axes;
  axes << along.transpose(), beam.side.transpose(), along.cross(beam.side).transpose();
  return axes;
}

/// Motion of the ends of the clear part in the beam's own axes, from the motion of the node centres in cell axes.
Matrix12 end_motion(const Beam& beam) {
  const Eigen::Matrix3d axes = own_axes(beam);
  Matrix12 motion = Matrix12::Zero();
  for (int block = 0; block < 12; block += 3) {
    motion.block<3, 3>(block, block) = axes;
  }
  // A point at the arm s along the beam moves by θ × s: to the side by s θ_up, upwards by -s θ_side.
  motion.block<1, 3>(1, 3) = beam.from.side * axes.row(2);
  motion.block<1, 3>(2, 3) = -beam.from.up * axes.row(1);
  motion.block<1, 3>(7, 9) = -beam.to.side * axes.row(2);
  motion.block<1, 3>(8, 9) = beam.to.up * axes.row(1);
  return motion;
}

/// Adds the bending in one plane: deflections v and rotations r of both ends, with dv/dx = sign · r for a straight
/// beam.
void add_bending(Matrix12& stiffness, int v, int r, double sign, double length, const RoundSection& section) {
  const double bending = section.second_moment();
  const double shear = section.shear_compliance ? 12 * bending / (section.shear_stiffness() * length * length) : 0.0;
  const double scale = bending / ((1 + shear) * length * length * length);
  const double arm = 6 * length * sign;
  const double near = (4 + shear) * length * length;
  const double far = (2 - shear) * length * length;
  const int place[4] = {v, r, v + 6, r + 6};
  const double part[4][4] = {
      {12, arm, -12, arm}, {arm, near, -arm, far}, {-12, -arm, 12, -arm}, {arm, far, -arm, near}};
  for (int i = 0; i < 4; ++i) {
    for (int j = 0; j < 4; ++j) {
      stiffness(place[i], place[j]) += scale * part[i][j];
    }
  }
}

void add_spring(Matrix12& stiffness, int place, double spring) {
  stiffness(place, place) += spring;
  stiffness(place + 6, place + 6) += spring;
  stiffness(place, place + 6) -= spring;
  stiffness(place + 6, place) -= spring;
}

/// Of the clear part, in the beam's own axes.
Matrix12 clear_stiffness(const Beam& beam, const RoundSection& section) {
  const double length = beam.span.norm();
  const double axial = length - beam.from.axial - beam.to.axial;
  Matrix12 stiffness = Matrix12::Zero();
  add_spring(stiffness, 0, section.area() / axial);
  add_spring(stiffness, 3, 2 * section.second_moment() * section.shear_modulus() / axial);
  add_bending(stiffness, 1, 5, 1, length - beam.from.side - beam.to.side, section);
  add_bending(stiffness, 2, 4, -1, length - beam.from.up - beam.to.up, section);
  return stiffness;
}

} // namespace

double RoundSection::area() const {
  return std::numbers::pi / 4 * diameter * diameter;
}
double RoundSection::second_moment() const {
  return area() * diameter * diameter / 16;
}
double RoundSection::section_modulus() const {
  return 2 * second_moment() / diameter;
}
double RoundSection::shear_modulus() const {
  return 1 / (2 * (1 + poissons_ratio));
}
double RoundSection::shear_stiffness() const {
  return 6 * (1 + poissons_ratio) / (7 + 6 * poissons_ratio) * shear_modulus() * area();
}

double Beam::clear_length() const {
  return span.norm() - std::min(from.side + to.side, from.up + to.up);
}

Matrix12 beam_stiffness(const Beam& beam, const RoundSection& section) {
  const Matrix12 motion = end_motion(beam);
  return motion.transpose() * clear_stiffness(beam, section) * motion;
}

BeamForces beam_forces(const Beam& beam, const RoundSection& section, const Vector12& motion) {
  const Vector12 force = clear_stiffness(beam, section) * (end_motion(beam) * motion);
  BeamForces forces;
  forces.compression = force[0];
  forces.moment_from = force.segment<2>(4).norm();
  forces.moment_to = force.segment<2>(10).norm();
  forces.torque = force[9];
  return forces;
}

} // namespace crushwright
