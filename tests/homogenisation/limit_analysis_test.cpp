#include "homogenisation/limit_analysis.hpp"

#include "homogenisation/hand_made_frames.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

const Eigen::Vector3d along_x(1, 0, 0);
const Eigen::Vector3d along_z(0, 0, 1);
const Eigen::Vector3d along_diagonal = Eigen::Vector3d(1, 1, 1).normalized();
constexpr double pi = std::numbers::pi;

void check_closed(const LimitLoad& load, double gap) {
  CHECK(load.lower > 0);
  CHECK(load.lower <= load.upper * (1 + 1e-9));
  CHECK(load.upper - load.lower <= gap * load.lower);
}

} // namespace

TEST_CASE("simple cubic crushed along an edge collapses at the standing struts' squash load") {
  for (const double d : {0.05, 0.2}) {
    const LimitLoad load = limit_load(frame_of(cubic_struts(), d), axial_stress(along_z), {.gap = 1e-6});
    check_closed(load, 1e-6);
    CHECK(load.lower == Approx(pi / 4 * d * d).epsilon(1e-6)); // derived
  }
}

TEST_CASE("a slender octet truss crushed along an edge collapses at a third of its nominal density") {
  // Pin-jointed, Deshpande, Fleck, Ashby, JMPS 49 (2001) 1747; memory. Bending at the joints adds the rest.
  for (const auto& [d, within] : {std::pair{0.005, 1e-4}, std::pair{0.02, 1e-3}}) {
    const HingedFrame frame = frame_of(octet_struts(), d);
    REQUIRE(frame.struts.size() == 24);
    const LimitLoad load = limit_load(frame, axial_stress(along_x), {.gap = 2e-5});
    CHECK(load.lower == Approx(nominal_density(frame) / 3).epsilon(within));
  }
}

TEST_CASE("BCC with hinges at the node centres and bending alone collapses at (4 sqrt 2 / 3)(d/a)^3") {
  // Gümrük, Mines, IJMS (2013); memory, derived again: 1.886e-3 at d/a = 0.1.
  const LimitOptions options{.yield = SectionYield::without_axial, .gap = 1e-3};
  const LimitLoad load = limit_load(frame_of(bcc_struts(), 0.1, 0), axial_stress(along_x), options);
  check_closed(load, 1e-3);
  CHECK(load.lower == Approx(1.886e-3).epsilon(0.005));
  // Hinges at the edge of the nodes shorten the lever √3/2 a by (√2/2) d at both ends: 1/(1 − (2√2/√3) d/a).
  const LimitLoad at_edge = limit_load(frame_of(bcc_struts(), 0.1), axial_stress(along_x), options);
  CHECK(at_edge.lower / load.lower == Approx(1 / (1 - 1.633 * 0.1)).epsilon(0.003));
}

TEST_CASE("bending collapse grows with the cube of the diameter, axial collapse with its square") {
  const LimitOptions bending{.yield = SectionYield::without_axial, .gap = 1e-3};
  const double thin = limit_load(frame_of(bcc_struts(), 0.05, 0), axial_stress(along_x), bending).lower;
  const double thick = limit_load(frame_of(bcc_struts(), 0.1, 0), axial_stress(along_x), bending).lower;
  CHECK(thick / thin == Approx(8).epsilon(2e-3));
  const double slender = limit_load(frame_of(cubic_struts(), 0.05), axial_stress(along_x)).lower;
  const double stout = limit_load(frame_of(cubic_struts(), 0.1), axial_stress(along_x)).lower;
  CHECK(stout / slender == Approx(4).epsilon(5e-3));
}

TEST_CASE("a Kelvin cell of round struts, node to node, collapses near 0.310 times the density to the power 1.5") {
  // Gibson, Ashby, Cellular Solids, ch. 5; memory and derived.
  for (const double d : {0.03, 0.06, 0.1}) {
    const HingedFrame frame = frame_of(kelvin_struts(), d, 0);
    REQUIRE(frame.struts.size() == 24);
    const double density = nominal_density(frame);
    const LimitLoad load = limit_load(frame, axial_stress(along_x));
    CHECK(load.lower == Approx(0.310 * std::pow(density, 1.5)).epsilon(0.05));
  }
}

TEST_CASE("collapse stays below the metal's own share of the section") {
  for (const auto& struts : {cubic_struts(), bcc_struts(), octet_struts(), kelvin_struts()}) {
    const HingedFrame frame = frame_of(struts, 0.1);
    for (const Eigen::Vector3d& direction : {along_x, along_diagonal}) {
      const LimitLoad load = limit_load(frame, axial_stress(direction));
      check_closed(load, 0.005);
      CHECK(load.upper < nominal_density(frame));
    }
  }
}

TEST_CASE("cutting planes alone and with the mechanism's forces to start from close on one load") {
  for (const auto& struts : {bcc_struts(), octet_struts(), kelvin_struts()}) {
    const HingedFrame frame = frame_of(struts, 0.12);
    for (const Eigen::Vector3d& direction : {along_x, along_diagonal}) {
      const Voigt stress = axial_stress(direction);
      const LimitLoad alone = limit_load(frame, stress, {.gap = 0.01, .start_from_mechanism = false});
      const LimitLoad started = limit_load(frame, stress, {.gap = 0.002});
      check_closed(alone, 0.01);
      CHECK(started.lower <= alone.upper * (1 + 1e-9));
      CHECK(alone.lower <= started.upper * (1 + 1e-9));
      CHECK(started.rounds < alone.rounds);
    }
  }
}

TEST_CASE("equivalent directions of a cubic cell collapse at one load") {
  for (const auto& struts : {bcc_struts(), octet_struts(), kelvin_struts()}) {
    const HingedFrame frame = frame_of(struts, 0.1);
    const LimitOptions options{.gap = 1e-3};
    const double x = limit_load(frame, axial_stress({1, 0, 0}), options).lower;
    const double y = limit_load(frame, axial_stress({0, -1, 0}), options).lower;
    CHECK(x == Approx(y).epsilon(2e-3));
    const double diagonal = limit_load(frame, axial_stress({1, 1, 0}), options).lower;
    const double other = limit_load(frame, axial_stress({0, 1, -1}), options).lower;
    CHECK(diagonal == Approx(other).epsilon(2e-3));
  }
}

TEST_CASE("a doubled cell collapses at the load of the single one") {
  for (const auto& struts : {cubic_struts(), bcc_struts(), octet_struts()}) {
    const HingedFrame frame = frame_of(struts, 0.1);
    for (const Eigen::Vector3d& direction : {along_x, along_diagonal}) {
      const double once = limit_load(frame, axial_stress(direction), {.gap = 1e-3}).lower;
      const double twice = limit_load(doubled(frame, 2), axial_stress(direction), {.gap = 1e-3}).lower;
      CHECK(twice == Approx(once).epsilon(2e-3));
    }
  }
}

TEST_CASE("forces at the lower load lie inside the exact curve") {
  const LimitLoad load = limit_load(frame_of(kelvin_struts(), 0.1), axial_stress(along_x));
  REQUIRE(load.forces.size() == 24);
  for (const auto& s : load.forces) {
    CHECK(section_gauge({s[0], s[1], s[2], s[3]}) < 1 + 1e-9);
    CHECK(section_gauge({s[0], s[1], s[4], s[5]}) < 1 + 1e-9);
  }
}
