#include "homogenisation/frame_load.hpp"

#include "crushwright/errors.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace crushwright {

namespace {

/// Uniaxial compression of size 1 along a unit vector.
Voigt crushed_along(const Eigen::Vector3d& unit) {
  const Eigen::Matrix3d stress = unit * unit.transpose();
  Voigt voigt;
  voigt << stress(0, 0), stress(1, 1), stress(2, 2), stress(1, 2), stress(0, 2), stress(0, 1);
  return voigt;
}

/// Members that carry less than this part of the greatest force are not called compressed: it is round-off.
const double negligible_part = 1e-9;

void find_first_buckling(const BeamFrame& frame, const std::vector<BeamForces>& forces, FrameLoad& load) {
  double greatest = 0;
  for (const BeamForces& member : forces) {
    greatest = std::max(greatest, std::abs(member.compression));
  }
  for (std::size_t place = 0; place < forces.size(); ++place) {
    if (!(forces[place].compression > negligible_part * greatest)) {
      continue;
    }
    const double stress = buckling_force(frame.beams[place], frame.section) / forces[place].compression;
    // Equal members of a symmetric cell differ by round-off; the first of them is named, on every machine.
    if (load.first_buckling_member < 0 || stress < load.first_buckling * (1 - 1e-9)) {
      load.first_buckling = stress;
      load.first_buckling_member = static_cast<int>(place);
    }
  }
}

} // namespace

std::vector<BeamForces> member_forces(const BeamFrame& frame, const Voigt& stress) {
  const FrameResponse response = frame_response(frame);
  // Strain and motion are those of tension; compression turns their sign.
  const Voigt strain = -response.stiffness.ldlt().solve(stress);
  std::vector<BeamForces> forces;
  forces.reserve(frame.beams.size());
  for (std::size_t place = 0; place < frame.beams.size(); ++place) {
    forces.push_back(beam_forces(frame.beams[place], frame.section,
                                 member_motion(frame.topology.members[place], response, strain)));
  }
  return forces;
}

double greatest_fibre_stress(const BeamForces& forces, const RoundSection& section) {
  return std::abs(forces.compression) / section.area() +
         std::max(forces.moment_from, forces.moment_to) / section.section_modulus();
}

double buckling_force(const Beam& beam, const RoundSection& section) {
  const double slenderness = std::numbers::pi / beam.clear_length();
  const double euler = section.second_moment() * slenderness * slenderness;
  return section.shear_compliance ? euler / (1 + euler / section.shear_stiffness()) : euler;
}

FrameLoad frame_load(const UnitCell& cell, double size_ratio, double poissons_ratio,
                     const Eigen::Vector3d& direction) {
  const double length = direction.norm();
  if (!(length > 0) || !std::isfinite(length)) {
    throw OutOfDomain("the direction of crushing has no length");
  }
  const BeamFrame frame = stiff_node_frame(cell, size_ratio, poissons_ratio);
  FrameLoad load;
  load.direction = direction / length;
  const std::vector<BeamForces> forces = member_forces(frame, crushed_along(load.direction));
  double fibre = 0;
  for (const BeamForces& member : forces) {
    fibre = std::max(fibre, greatest_fibre_stress(member, frame.section));
  }
  load.first_yield = 1 / fibre;
  find_first_buckling(frame, forces, load);
  return load;
}

} // namespace crushwright
