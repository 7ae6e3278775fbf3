#include "surface/surface_cut.hpp"

#include "crushwright/errors.hpp"
#include "surface/made_surfaces.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace crushwright;
using namespace crushwright::made_surfaces;

namespace {

constexpr double pi = std::numbers::pi;

/// Below zero for a hole.
double area_of_loop(const std::vector<std::array<double, 2>>& loop) {
  double twice = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const auto& a = loop[i];
    const auto& b = loop[(i + 1) % loop.size()];
    twice += a[0] * b[1] - a[1] * b[0];
  }
  return twice / 2;
}

double area_of_cut(const SurfaceCut& cut) {
  double area = 0;
  for (const auto& loop : cut.loops)
    area += area_of_loop(loop);
  return area;
}

SurfaceCut cut_at(const TriangleMesh& mesh, double station) {
  return cuts_across(mesh, {station}).front();
}

/// By the midpoint rule over the mesh's length.
double volume_from_cuts(const TriangleMesh& mesh, int cuts) {
  const SurfaceBounds bounds = bounds_of(mesh);
  const double step = bounds.size()[0] / cuts;
  std::vector<double> stations;
  for (int i = 0; i < cuts; ++i)
    stations.push_back(bounds.low[0] + (i + 0.5) * step);
  double volume = 0;
  for (const SurfaceCut& cut : cuts_across(mesh, stations))
    volume += area_of_cut(cut) * step;
  return volume;
}

} // namespace

TEST_CASE("cuts times their spacing give the volume that the surface encloses") {
  // The area of a cut is quadratic in x between two points of the mesh, so the midpoint rule misses by the square of
  // the spacing; 2000 cuts leave a few 1e-6.
  for (const TriangleMesh& mesh : {tapered_cone({}, 60, 8), knot({}, 300, 24), torus(0.1, 0.03, 60), sphere(0.1, 40)})
    CHECK(volume_from_cuts(mesh, 2000) == Approx(volume_of(mesh)).epsilon(4e-6));
  CHECK(volume_from_cuts(tapered_cone({}, 60, 8), 200) == Approx(volume_of(tapered_cone({}, 60, 8))).epsilon(4e-6));
  // The step of the notch falls between two cuts.
  CHECK(volume_from_cuts(notched_box({}), 300) == Approx(volume_of(notched_box({}))).epsilon(1e-12));
}

TEST_CASE("the cut of a box is its rectangle, inside and at both end faces") {
  const TriangleMesh mesh = box({-1, 2, 3}, {4, 5, 10});
  for (double station : {-1.0, 0.3, 1.5, 4.0}) {
    const SurfaceCut cut = cut_at(mesh, station);
    CHECK(cut.station == station);
    REQUIRE(cut.loops.size() == 1);
    CHECK(area_of_loop(cut.loops[0]) == Approx(21).epsilon(1e-14));
    for (const auto& corner : cut.loops[0]) {
      CHECK((corner[0] == 2 || corner[0] == 5 || corner[1] == 3 || corner[1] == 10));
    }
  }
  CHECK(cut_at(mesh, -1.0001).loops.empty());
  CHECK(cut_at(mesh, 4.0001).loops.empty());
}

TEST_CASE("a plane in the face of a step shows the figure towards the middle") {
  // The step lies at 0.25, beyond the middle: there the section is still whole.
  const TriangleMesh mesh = notched_box({{0.375, 0.125, 0.25}, {0.125, 0.125, 0.125}});
  CHECK(area_of_cut(cut_at(mesh, 0.25)) == Approx(0.125 * 0.25).epsilon(1e-14));
  CHECK(area_of_cut(cut_at(mesh, std::nextafter(0.25, 1))) == Approx(0.125 * 0.125).epsilon(1e-14));
  CHECK(area_of_cut(cut_at(mesh, 0.375)) == Approx(0.125 * 0.125).epsilon(1e-14));
}

TEST_CASE("a torus cut beside its hole, through its hole and along its equator") {
  const double radius = 0.1, tube = 0.03;
  const TriangleMesh upright = torus(radius, tube, 400);
  // Through the axis: two discs. A closed form each; 400 points a circle leave 4e-5.
  const SurfaceCut two = cut_at(upright, 0);
  REQUIRE(two.loops.size() == 2);
  for (const auto& loop : two.loops)
    CHECK(area_of_loop(loop) == Approx(pi * tube * tube).epsilon(1e-4));
  CHECK(cut_at(upright, 0.1).loops.size() == 1);

  // Turned so that the cut at 0 is its equator: a disc with a hole.
  TriangleMesh lying = upright;
  for (auto& point : lying.points)
    point = {point[2], point[0], point[1]};
  const SurfaceCut ring = cut_at(lying, 1e-4);
  REQUIRE(ring.loops.size() == 2);
  const double half = std::sqrt(tube * tube - 1e-8);
  CHECK(area_of_loop(ring.loops[0]) == Approx(pi * (radius + half) * (radius + half)).epsilon(1e-4));
  CHECK(area_of_loop(ring.loops[1]) == Approx(-pi * (radius - half) * (radius - half)).epsilon(1e-4));
  // Exactly along the equator the plane runs through 800 corners of the mesh.
  CHECK(area_of_cut(cut_at(lying, 0)) == Approx(4 * pi * radius * tube).epsilon(1e-4));
}

TEST_CASE("a cavity shows as a hole in the cut") {
  const TriangleMesh mesh = together(box({0, 0, 0}, {3, 3, 3}), inside_out(box({1, 1, 1}, {2, 2, 2})));
  const SurfaceCut cut = cut_at(mesh, 1.5);
  REQUIRE(cut.loops.size() == 2);
  CHECK(area_of_loop(cut.loops[0]) == Approx(9));
  CHECK(area_of_loop(cut.loops[1]) == Approx(-1));
}

TEST_CASE("cuts come in the order in which their stations were asked for") {
  const TriangleMesh mesh = cone(1, 2, 50);
  const std::vector<double> stations{1.5, 0.25, 1.5, 1.0};
  const auto cuts = cuts_across(mesh, stations);
  REQUIRE(cuts.size() == 4);
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    CHECK(cuts[i].station == stations[i]);
    // A regular 100-gon of radius 1 - x/2.
    const double radius = 1 - stations[i] / 2;
    CHECK(area_of_cut(cuts[i]) == Approx(50 * radius * radius * std::sin(2 * pi / 100)).epsilon(1e-12));
  }
  CHECK(cuts_across(mesh, {}).empty());
  CHECK(cut_at(mesh, 2).loops.empty()); // the apex alone
}

TEST_CASE("every plane through corners of a mesh gives closed loops") {
  const TriangleMesh mesh = knot({}, 120, 12);
  std::vector<double> stations;
  for (const auto& point : mesh.points)
    stations.push_back(point[0]);
  for (const SurfaceCut& cut : cuts_across(mesh, stations))
    for (const auto& loop : cut.loops)
      CHECK(loop.size() >= 3);
}

TEST_CASE("an open surface does not close its cuts, and the message says where") {
  TriangleMesh mesh = box({0, 0, 0}, {1, 1, 1});
  mesh.triangles.erase(mesh.triangles.begin());
  CHECK_THROWS_WITH(cuts_across(mesh, {0.5}), "the cut at 0.5 does not close: the surface is open there");
}
