#include "homogenisation/hinged_frame.hpp"

#include "homogenisation/hand_made_frames.hpp"
#include "homogenisation/section_curve.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

/// q of strut_rates for nodes that move as a rigid body turning at `spin` about the first node.
Eigen::Matrix<double, 18, 1> rigid_motion(const Eigen::Vector3d& velocity, const Eigen::Vector3d& spin,
                                          const Eigen::Vector3d& span) {
  Eigen::Matrix<double, 18, 1> q;
  q << velocity, spin, velocity + spin.cross(span), spin, Eigen::Matrix<double, 6, 1>::Zero();
  return q;
}

} // namespace

TEST_CASE("a strut that moves as a rigid body strains no hinge") {
  const HingedFrame frame = frame_of(kelvin_struts(), 0.12);
  for (const HingedStrut& strut : frame.struts) {
    const StrutRates rates = strut_rates(frame, strut);
    const auto q = rigid_motion({0.3, -0.2, 0.5}, {0.7, 0.1, -0.4}, frame.span(strut));
    CHECK((rates * q).norm() < 1e-12);
  }
}

TEST_CASE("an even strain stretches a strut by its part along the strut") {
  const HingedFrame frame = frame_of(bcc_struts(), 0.1);
  const HingedStrut& strut = frame.struts.front();
  Eigen::Matrix<double, 18, 1> q = Eigen::Matrix<double, 18, 1>::Zero();
  q[12] = 0.01; // xx, of which a third lies along a body diagonal
  const Eigen::Matrix<double, 6, 1> rates = strut_rates(frame, strut) * q;
  const double stretch = 0.01 / 3 * frame.span(strut).norm();
  CHECK(rates[0] == Approx(plastic_forces(strut.radius).axial * stretch).epsilon(1e-12));
}

TEST_CASE("a turn of one node turns the hinge there, and the hinge beyond by the lever of its arm") {
  HingedFrame frame;
  frame.nodes = {{0, 0, 0}, {0, 0, 0.5}};
  frame.joints = 2;
  HingedStrut strut;
  strut.to = 1;
  strut.from_arm = {0, 0, 0.1};
  strut.radius = 0.02;
  frame.struts = {strut};
  Eigen::Matrix<double, 18, 1> q = Eigen::Matrix<double, 18, 1>::Zero();
  q[3] =
      1; // about x: the end of the arm moves by 0.1 along -y, and the clear span of 0.4 turns by 0.25 the other way
  const Eigen::Matrix<double, 6, 1> rates = strut_rates(frame, strut) * q / plastic_forces(0.02).bending;
  CHECK(rates.segment<2>(2).norm() == Approx(1.25).epsilon(1e-12));
  CHECK(rates.tail<2>().norm() == Approx(0.25).epsilon(1e-12));
  CHECK(std::abs(rates[0]) < 1e-12);
}

TEST_CASE("hinges stand at the edge of the nodes, and halfway where half the reach is asked for") {
  const FrameTopology topology = frame_topology(bcc_struts());
  const std::vector<NodeReach> reaches = node_reaches(topology, 0.1);
  // Struts of a BCC node meet at 70.5 degrees at the sharpest: reach (d/2)/tan(35.26°) = (√2/2) d.
  CHECK(reaches.front().from == Approx(0.1 * std::sqrt(0.5)).epsilon(1e-9));
  const HingedFrame whole = hinged_frame(topology, 0.1);
  const HingedFrame half = hinged_frame(topology, 0.1, 0.5);
  CHECK(whole.struts.front().from_arm.norm() == Approx(reaches.front().from).epsilon(1e-12));
  CHECK(half.struts.front().from_arm.norm() == Approx(0.5 * reaches.front().from).epsilon(1e-12));
  CHECK(whole.clear_span(whole.struts.front()).norm() ==
        Approx(std::sqrt(0.75) - 2 * reaches.front().from).epsilon(1e-12));
}
