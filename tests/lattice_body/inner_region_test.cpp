#include "lattice_body/inner_region.hpp"

#include "lattice_body/trim_samples.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace crushwright;
using trim_samples::slotted_block;
using V = Eigen::Vector3d;

namespace {

constexpr double grain = 1e-8;

std::vector<KeptPart> parts(const SurfaceProbe& probe, const TrimOptions& options, const V& from, const V& to) {
  const InnerRegion region(probe, options, grain);
  return region.kept_parts(from, to, region.level(from), region.level(to), 1e-5);
}

TrimOptions inset(double by) {
  TrimOptions options;
  options.inset = by;
  return options;
}

} // namespace

TEST_CASE("A strut that leaves and comes back is kept on both sides") {
  const SurfaceProbe block(slotted_block(0.01, 0.04));
  const V from(0.002, 0.02, 0.02), to(0.028, 0.02, 0.02);
  // Both ends lie inside; the slot is at x = 10 to 20 mm.
  const auto sharp = parts(block, inset(0), from, to);
  REQUIRE(sharp.size() == 2);
  CHECK(sharp[0].from == 0);
  CHECK(sharp[0].to == Approx((0.010 - 0.002) / 0.026).epsilon(1e-6));
  CHECK(sharp[1].from == Approx((0.020 - 0.002) / 0.026).epsilon(1e-6));
  CHECK(sharp[1].to == 1);
  CHECK((!sharp[0].cut_from && sharp[0].cut_to && sharp[1].cut_from && !sharp[1].cut_to));
  const auto behind_skin = parts(block, inset(0.001), from, to);
  REQUIRE(behind_skin.size() == 2);
  CHECK(behind_skin[0].to == Approx((0.009 - 0.002) / 0.026).epsilon(1e-5));
  CHECK(behind_skin[1].from == Approx((0.021 - 0.002) / 0.026).epsilon(1e-5));
}

TEST_CASE("A strut through the whole body, both ends outside, is kept between") {
  const SurfaceProbe block(slotted_block(0.01, 0.04));
  const auto kept = parts(block, inset(0.002), {-0.01, 0.02, 0.02}, {0.04, 0.02, 0.02});
  REQUIRE(kept.size() == 2);
  CHECK(kept[0].from == Approx(0.012 / 0.05).epsilon(1e-5));
  CHECK(kept[0].to == Approx(0.018 / 0.05).epsilon(1e-5));
  CHECK(kept[1].from == Approx(0.032 / 0.05).epsilon(1e-5));
  CHECK(kept[1].to == Approx(0.038 / 0.05).epsilon(1e-5));
}

TEST_CASE("Cuts behind a skin lie on the ball that is smaller by the skin") {
  // A mesh of a ball lies inside it by up to (π/n)²/2 of its radius: 2e-4 of it here, twice as much at oblique cuts.
  constexpr double radius = 0.03, skin = 0.002;
  const SurfaceProbe ball(made_surfaces::sphere(radius, 160));
  std::mt19937 random(7);
  std::uniform_real_distribution<double> coordinate(-0.035, 0.035);
  int cuts = 0;
  double kept = 0, chords = 0;
  for (int i = 0; i < 2000; ++i) {
    const V from(coordinate(random), coordinate(random), coordinate(random));
    const V to(coordinate(random), coordinate(random), coordinate(random));
    // The part of the segment in the ball itself, from the closed form.
    const double along = (to - from).norm(), nearest = -from.dot(to - from) / along;
    const double half =
        std::sqrt(std::max(0.0, (radius - skin) * (radius - skin) - from.squaredNorm() + nearest * nearest));
    chords += std::max(0.0, std::min(along, nearest + half) - std::max(0.0, nearest - half));
    for (const KeptPart& part : parts(ball, inset(skin), from, to)) {
      kept += (part.to - part.from) * along;
      for (const auto& [cut, at] : {std::pair(part.cut_from, part.from), std::pair(part.cut_to, part.to)})
        if (cut) {
          ++cuts;
          const double off = (from + at * (to - from)).norm();
          CHECK(off <= radius - skin + 2 * grain);
          CHECK(off >= radius - skin - 4e-4 * radius);
        }
    }
  }
  CHECK(cuts > 500);
  CHECK(kept == Approx(chords).epsilon(1e-3));
}

TEST_CASE("Nothing is kept beyond the end stations, and cuts there are told from cuts at the surface") {
  const SurfaceProbe box(made_surfaces::box({-0.1, -0.1, -0.1}, {0.2, 0.1, 0.1}));
  for (const double by : {0.0, 0.01}) {
    CAPTURE(by);
    TrimOptions options = inset(by);
    options.first_station = 0.02;
    options.last_station = 0.08;
    const auto kept = parts(box, options, {0, 0, 0}, {0.1, 0, 0});
    REQUIRE(kept.size() == 1);
    CHECK(kept[0].from == Approx(0.2).epsilon(1e-6));
    CHECK(kept[0].to == Approx(0.8).epsilon(1e-6));
    const InnerRegion region(box, options, grain);
    CHECK(region.boundary_at({0.02, 0, 0}) == NodePlace::at_tip);
    CHECK(region.boundary_at({0.08, 0, 0}) == NodePlace::at_root);
    CHECK(region.boundary_at({0.05, 0.1 - by, 0}) == NodePlace::at_surface);
  }
}

TEST_CASE("A strut that runs in the boundary is kept whole") {
  const SurfaceProbe box(made_surfaces::box({0, 0, 0}, {0.03, 0.03, 0.03}));
  for (const double by : {0.0, 0.005}) {
    CAPTURE(by);
    const auto kept = parts(box, inset(by), {0.01, 0.01, by}, {0.02, 0.02, by});
    REQUIRE(kept.size() == 1);
    CHECK((kept[0].from == 0 && kept[0].to == 1 && !kept[0].cut_from && !kept[0].cut_to));
  }
}
