#include "homogenisation/collapse_mechanism.hpp"

#include "homogenisation/hand_made_frames.hpp"
#include "homogenisation/limit_analysis.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

const Eigen::Vector3d along_diagonal = Eigen::Vector3d(1, 1, 1).normalized();

} // namespace

TEST_CASE("work of the least-work mechanism meets the load of forces in balance") {
  for (const auto& struts : {cubic_struts(), bcc_struts(), octet_struts(), kelvin_struts()}) {
    for (const double d : {0.03, 0.15}) {
      const HingedFrame frame = frame_of(struts, d);
      const CollapseMechanism mechanism = collapse_mechanism(frame, axial_stress(along_diagonal), {.gap = 0.002});
      const LimitLoad load =
          limit_load(frame, axial_stress(along_diagonal), {.gap = 0.01, .start_from_mechanism = false});
      CHECK(mechanism.upper <= mechanism.lower * 1.002);
      CHECK(mechanism.upper >= load.lower * (1 - 1e-9));
      CHECK(mechanism.lower <= load.upper * (1 + 1e-9));
    }
  }
}

TEST_CASE("a mechanism does unit work against its stress, and its work is the load that it is found for") {
  const HingedFrame frame = frame_of(kelvin_struts(), 0.1);
  const Voigt stress = axial_stress(along_diagonal);
  const CollapseMechanism mechanism = collapse_mechanism(frame, stress, {.gap = 1e-3});
  CHECK(-stress.dot(mechanism.strain) == Approx(1).epsilon(1e-9));
  REQUIRE(mechanism.velocity.size() == 12);
  CHECK(mechanism.velocity[0].norm() == 0);
}

TEST_CASE("of the many mechanisms of a symmetric cell the symmetric one is taken") {
  for (const auto& struts : {cubic_struts(), bcc_struts(), octet_struts(), kelvin_struts()}) {
    const CollapseMechanism mechanism = collapse_mechanism(frame_of(struts, 0.1), axial_stress({0, 0, 1}));
    CHECK(mechanism.strain[2] == Approx(-1).epsilon(1e-9));
    CHECK(mechanism.strain[0] == Approx(mechanism.strain[1]).margin(1e-6));
    CHECK(mechanism.strain.tail<3>().norm() < 1e-6);
  }
}
