#include "homogenisation/collapse_path.hpp"

#include "homogenisation/hand_made_frames.hpp"
#include "homogenisation/section_curve.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

const Eigen::Vector3d along_z(0, 0, 1);

} // namespace

TEST_CASE("a zigzag column folds at twice the plastic moment over its throw") {
  // To 0.12: farther on a fold that softens leans to one side, at a load below this.
  const double radius = 0.01;
  const double out = 0.2;
  const CollapsePath path =
      collapse_path(braced_column({{0, 0, 0}, {out, 0, 0.5}}, radius), along_z, {.end = 0.12, .waviness = 0});
  const double length = std::hypot(out, 0.5);
  for (std::size_t k = 0; k < path.strain.size(); ++k) {
    const double half = 0.5 * (1 - path.strain[k]);
    const double now_out = std::sqrt(length * length - half * half);
    // P × throw = 2 Mp; the axial force takes under 0.2 % off Mp.
    CHECK(path.stress[k] == Approx(2 * plastic_forces(radius).bending / now_out).epsilon(0.003));
  }
  // Work = Mp × all turns: four hinges turn by the change of the struts' slope.
  const double turn = std::acos(0.44 / length) - std::acos(0.5 / length);
  CHECK(path.mean_stress * 0.12 == Approx(4 * plastic_forces(radius).bending * turn).epsilon(0.003));
  CHECK(path.greatest_length_error < 1e-3);
}

TEST_CASE("a standing strut with a bow buckles over three hinges, N w = 2 Mp") {
  const double radius = 0.005;
  const HingedFrame column = braced_column({{0, 0, 0}}, radius);
  const PathOptions options{.end = 0.4, .step = 0.005, .largest_turn = 0.05, .waviness = 0.1};
  const HingedFrame split = with_middles(column, along_z, options.waviness);
  const double first_bow = split.nodes[1].head<2>().norm();
  CHECK(first_bow > 0.07);
  CHECK(first_bow < 0.13);
  const double half_length = std::hypot(first_bow, 0.5);
  const CollapsePath path = collapse_path(column, along_z, options);
  for (std::size_t k = 0; k < path.strain.size(); ++k) {
    const double half = 0.5 * (1 - path.strain[k]);
    const double bow = std::sqrt(half_length * half_length - half * half);
    CHECK(path.stress[k] == Approx(2 * plastic_forces(radius).bending / bow).epsilon(0.01));
  }
}

TEST_CASE("a straight standing strut that cannot bow squashes at constant volume") {
  const HingedFrame column = braced_column({{0, 0, 0}}, 0.02);
  const CollapsePath path = collapse_path(column, along_z, {.end = 0.3, .waviness = 0});
  for (std::size_t k = 0; k < path.strain.size(); ++k) {
    CHECK(path.stress[k] == Approx(plastic_forces(0.02).axial / (1 - path.strain[k])).epsilon(0.003));
  }
}

TEST_CASE("halving the step of a path does not change its mean stress") {
  const HingedFrame frame = frame_of(bcc_struts(), 0.1);
  const CollapsePath coarse = collapse_path(frame, along_z, {.step = 0.02});
  const CollapsePath fine = collapse_path(frame, along_z, {.step = 0.01});
  CHECK(coarse.mean_stress == Approx(fine.mean_stress).epsilon(0.003));
  CHECK(fine.strain.back() == Approx(0.5).epsilon(1e-12));
  CHECK(fine.greatest_gap < 0.005);
  CHECK(fine.greatest_length_error < 0.002);
}

TEST_CASE("a bending cell keeps its load on the way, a standing strut loses most of it") {
  const HingedFrame bending = frame_of(bcc_struts(), 0.08);
  const CollapsePath soft = collapse_path(bending, along_z);
  CHECK(soft.mean_stress > 0.8 * soft.stress.front());
  const HingedFrame standing = frame_of(cubic_struts(), 0.05);
  const CollapsePath buckling = collapse_path(standing, along_z);
  CHECK(buckling.mean_stress < 0.4 * buckling.stress.front());
  CHECK(buckling.stress.back() < 0.2 * buckling.stress.front());
}

TEST_CASE("the mean stress depends weakly on the bow of the struts") {
  const HingedFrame frame = frame_of(octet_struts(), 0.1);
  const double little = collapse_path(frame, along_z, {.waviness = 0.01}).mean_stress;
  const double much = collapse_path(frame, along_z, {.waviness = 0.03}).mean_stress;
  CHECK(much < little);
  CHECK(much > 0.8 * little);
}
