#include "printability/build_fit.hpp"

#include "printability/sample_subjects.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_subjects;

namespace {

using Volume = std::array<double, 3>;

Placement place(const Envelope& envelope, const Vector& direction, const Volume& volume) {
  return placement_of(surface_of(envelope).points, direction, volume);
}

} // namespace

TEST_CASE("a box fits a machine of its own size and none that is smaller") {
  const Envelope part = box(0.3, 0.1, 0.2);
  CHECK(place(part, {-1, 0, 0}, {0.1, 0.2, 0.3}).fits);
  CHECK(place(part, {-1, 0, 0}, {0.2, 0.1, 0.3}).fits); // turned by 90 degrees
  CHECK_FALSE(place(part, {-1, 0, 0}, {0.1, 0.2, 0.299}).fits);
  CHECK_FALSE(place(part, {-1, 0, 0}, {0.1, 0.199, 0.3}).fits);
  CHECK(place(part, {0, 0, 1}, {0.3, 0.1, 0.2}).fits);
}

TEST_CASE("a long box fits across the platform where it does not fit along it") {
  // 0.3 by 0.01 in a square of side s at 45 degrees: (0.3 + 0.01) / √2 = 0.2192.
  const Envelope part = box(0.3, 0.01, 0.02);
  const Placement across_platform = place(part, {0, 0, 1}, {0.2193, 0.2193, 0.1});
  CHECK(across_platform.fits);
  CHECK(std::abs(across_platform.piece.turned) == Approx(45 * degree).margin(1 * degree));
  CHECK_FALSE(place(part, {0, 0, 1}, {0.2191, 0.2191, 0.1}).fits);
}

TEST_CASE("the height of a leaning box is that of its corners") {
  // Leaning by α: L cos α + H sin α.
  const double lean = 25 * degree;
  const Placement placement =
      placement_of(surface_of(box(0.3, 0.1, 0.2)).points, {-std::cos(lean), 0, std::sin(lean)}, std::nullopt);
  CHECK(placement.piece.height == Approx(0.3 * std::cos(lean) + 0.2 * std::sin(lean)).margin(1e-12));
  CHECK(placement.piece.footprint[0] * placement.piece.footprint[1] ==
        Approx(0.1 * (0.3 * std::sin(lean) + 0.2 * std::cos(lean))).margin(1e-12));
}

TEST_CASE("what is too long is cut across the crush axis into the fewest equal pieces that fit") {
  const Envelope part = box(0.5, 0.1, 0.1);
  const TriangleMesh surface = surface_of(part);
  CHECK(pieces_that_fit(part, surface, {-1, 0, 0}, Volume{0.2, 0.2, 0.5}).size() == 1);
  const std::vector<BuildPiece> two = pieces_that_fit(part, surface, {-1, 0, 0}, Volume{0.2, 0.2, 0.3});
  REQUIRE(two.size() == 2);
  CHECK(two[0].to == Approx(0.25).margin(1e-12));
  CHECK(two[1].from == two[0].to);
  CHECK(two[1].to == Approx(0.5).margin(1e-12));
  CHECK(two[0].height == Approx(0.25).margin(1e-12));
  CHECK(pieces_that_fit(part, surface, {-1, 0, 0}, Volume{0.2, 0.2, 0.1}).size() == 5);
}

TEST_CASE("no cut across the crush axis makes a part narrower") {
  const Envelope part = box(0.5, 0.1, 0.1);
  CHECK(pieces_that_fit(part, surface_of(part), {-1, 0, 0}, Volume{0.05, 0.2, 0.5}).empty());
}

TEST_CASE("a tapered part's pieces are as wide as it is where they are cut") {
  Envelope cone = box(0.4, 0.1, 0.1);
  cone.sections.back().width = cone.sections.back().height = 0.2;
  const std::vector<BuildPiece> pieces = pieces_that_fit(cone, surface_of(cone), {-1, 0, 0}, Volume{0.3, 0.3, 0.2});
  REQUIRE(pieces.size() == 2);
  CHECK(pieces[0].footprint[0] == Approx(0.15).margin(1e-12));
  CHECK(pieces[1].footprint[0] == Approx(0.2).margin(1e-12));
}

TEST_CASE("without a build volume nothing is split") {
  const Envelope part = box(50, 1, 1);
  CHECK(pieces_that_fit(part, surface_of(part), {-1, 0, 0}, std::nullopt).size() == 1);
}

TEST_CASE("a box stands on its faces and neither on an edge nor on a corner") {
  const std::vector<Vector> corners = surface_of(box(0.3, 0.1, 0.2)).points;
  for (const Vector& face : {Vector{1, 0, 0}, Vector{-1, 0, 0}, Vector{0, 1, 0}, Vector{0, 0, -1}})
    CHECK(stands_on_base(corners, face));
  CHECK_FALSE(stands_on_base(corners, scaled({0, 1, 1}, std::sqrt(0.5))));
  CHECK_FALSE(stands_on_base(corners, scaled({1, 1, 1}, std::sqrt(1.0 / 3))));
}
