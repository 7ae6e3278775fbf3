#include "surface/surface_probe.hpp"

#include "surface/made_surfaces.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <thread>

using namespace crushwright;
using namespace crushwright::made_surfaces;

namespace {

Place between(const Place& from, const Place& to, double part) {
  return {from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1]), from[2] + part * (to[2] - from[2])};
}

double distance(const Place& a, const Place& b) {
  return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/// Inside and outside alternate: the middle of every piece is on the side that its place in the row says.
void check_alternation(const SurfaceProbe& probe, const Place& from, const Place& to) {
  const std::vector<double> places = probe.crossings(from, to);
  std::vector<double> ends{0};
  ends.insert(ends.end(), places.begin(), places.end());
  ends.push_back(1);
  for (std::size_t i = 0; i + 1 < ends.size(); ++i)
    REQUIRE(ends[i] < ends[i + 1]);
  bool inside = probe.inside(between(from, to, 0.5 * ends[1]));
  for (std::size_t i = 1; i + 1 < ends.size(); ++i) {
    inside = !inside;
    REQUIRE(probe.inside(between(from, to, 0.5 * (ends[i] + ends[i + 1]))) == inside);
  }
}

double inside_length(const SurfaceProbe& probe, const Place& from, const Place& to) {
  double length = 0;
  for (const auto& [begin, end] : probe.parts_inside(from, to))
    length += (end - begin) * distance(from, to);
  return length;
}

} // namespace

TEST_CASE("points in, on and out of a box, corners and edges among them") {
  const SurfaceProbe probe(box({0, 0, 0}, {1, 2, 3}));
  CHECK(probe.inside({0.5, 1, 1.5}));
  for (double x : {0.0, 0.25, 0.5, 1.0})
    for (double y : {0.0, 0.5, 1.0, 2.0})
      for (double z : {0.0, 0.75, 1.5, 3.0})
        CHECK(probe.inside({x, y, z})); // diagonals of faces, edges, corners
  CHECK_FALSE(probe.inside({1 + 1e-12, 1, 1}));
  CHECK_FALSE(probe.inside({1.5, 0, 0})); // in line with an edge
  CHECK_FALSE(probe.inside({-1, -1, -1}));
}

TEST_CASE("the distance to a box and to a sphere is the closed form") {
  const SurfaceProbe cuboid(box({0, 0, 0}, {1, 2, 3}));
  CHECK(cuboid.signed_distance({0.5, 1, 1.25}) == Approx(-0.5));
  CHECK(cuboid.signed_distance({0.5, 1, 0.25}) == Approx(-0.25));
  CHECK(cuboid.signed_distance({2, 3, 4}) == Approx(std::sqrt(3.0)));
  CHECK(cuboid.signed_distance({1, 2, 3}) == 0);
  const SurfaceProbe ball(sphere(1, 200));
  for (const Place& point : {Place{0.1, 0.2, 0.3}, {0.9, 0.1, -0.2}, {1.5, -0.5, 2}})
    CHECK(ball.signed_distance(point) ==
          Approx(distance(point, {0, 0, 0}) - 1).margin(3e-4)); // facets lie 1.2e-4 inside
}

TEST_CASE("a segment through a box is cut where its faces are") {
  const SurfaceProbe probe(box({0, 0, 0}, {1, 2, 3}));
  CHECK(probe.crossings({-1, 1, 1}, {3, 1, 1}) == std::vector<double>{0.25, 0.5});
  CHECK(probe.crossings({0.5, 1, 1}, {0.5, 1, 5}) == std::vector<double>{0.5});
  CHECK(probe.crossings({0.25, 1, 1}, {0.5, 1, 2}).empty());
  CHECK(probe.crossings({2, 1, 1}, {3, 1, 2}).empty());
  CHECK(probe.parts_inside({0.25, 1, 1}, {0.5, 1, 2}) == std::vector<std::array<double, 2>>{{0, 1}});
  CHECK(probe.parts_inside({2, 1, 1}, {3, 1, 2}).empty());
}

TEST_CASE("a segment through corners and along edges and faces keeps inside and outside apart") {
  const SurfaceProbe probe(box({0, 0, 0}, {1, 1, 1}));
  const auto lengths = [&](const Place& from, const Place& to) { return inside_length(probe, from, to); };
  // From corner to corner, and beyond both.
  CHECK(probe.crossings({0, 0, 0}, {1, 1, 1}).empty());
  CHECK(lengths({0, 0, 0}, {1, 1, 1}) == Approx(std::sqrt(3.0)));
  CHECK(probe.crossings({-1, -1, -1}, {2, 2, 2}).size() == 2);
  CHECK(lengths({-1, -1, -1}, {2, 2, 2}) == Approx(std::sqrt(3.0)));
  // Through an edge, and through the diagonal of a face that two triangles share.
  CHECK(lengths({-1, -1, 0.5}, {2, 2, 0.5}) == Approx(std::sqrt(2.0)));
  CHECK(lengths({0.5, 0.5, -1}, {0.5, 0.5, 2}) == Approx(1));
  // A touch of an edge and of a corner from outside.
  CHECK(probe.crossings({-1, 1, 0.5}, {1, -1, 0.5}).empty());
  CHECK(probe.crossings({-1, 1, 1}, {1, -1, -1}).empty());
  CHECK(probe.crossings({-0.5, 0.5, 1.2}, {0.5, -0.5, 0.8}).empty());
  // In a face and along an edge: the surface counts as inside.
  CHECK(lengths({-1, 0.3, 1}, {2, 0.3, 1}) == Approx(1));
  CHECK(lengths({-1, 0, 0}, {2, 0, 0}) == Approx(1));
  CHECK(lengths({0.2, 0.3, 1}, {0.7, 0.9, 1}) == Approx(std::hypot(0.5, 0.6)));
  // Ends on the surface, going in and going out.
  CHECK(lengths({0, 0.4, 0.3}, {-1, 0.5, 0.3}) == 0);
  CHECK(lengths({0, 0.4, 0.3}, {2, 0.4, 0.3}) == Approx(1));
  CHECK(probe.crossings({0, 0.4, 0.3}, {2, 0.4, 0.3}) == std::vector<double>{0.5});
}

TEST_CASE("struts on the grid of a mesh's own corners have the length that the solid has along them") {
  // Every line below runs through corners, edges or faces of the notched box; 0.25 and 0.125 are exact in binary.
  const SurfaceProbe probe(notched_box({{0.375, 0.125, 0.25}, {0.125, 0.125, 0.125}}));
  const auto lengths = [&](const Place& from, const Place& to) { return inside_length(probe, from, to); };
  CHECK(lengths({-0.1, 0.06, 0.125}, {0.4, 0.06, 0.125}) == Approx(0.375));               // in the floor of the notch
  CHECK(lengths({-0.1, 0.06, 0.13}, {0.4, 0.06, 0.13}) == Approx(0.25));                  // into its wall
  CHECK(lengths({0.25, 0.06, -0.1}, {0.25, 0.06, 0.3}) == Approx(0.25));                  // in its wall
  CHECK(lengths({0.125, 0.06, 0.25}, {0.375, 0.06, 0}) == Approx(std::sqrt(2.0) * 0.25)); // through the inner edge
  CHECK(lengths({0.3, 0, 0.125}, {0.3, 0.125, 0.125}) == Approx(0.125)); // across the floor, wall to wall
}

TEST_CASE("inside and outside alternate along random segments through a knot") {
  const SurfaceProbe probe(knot({}, 240, 16));
  std::mt19937 random(7);
  std::uniform_real_distribution<double> place(-0.17, 0.17), height(-0.06, 0.06);
  std::size_t crossings = 0;
  for (int i = 0; i < 3000; ++i) {
    const Place from{place(random), place(random), height(random)}, to{place(random), place(random), height(random)};
    crossings += probe.crossings(from, to).size();
    check_alternation(probe, from, to);
  }
  CHECK(crossings > 3000);
}

TEST_CASE("inside and outside alternate along segments from corner to corner of a knot") {
  const TriangleMesh mesh = knot({}, 60, 8);
  const SurfaceProbe probe(mesh);
  std::mt19937 random(11);
  std::uniform_int_distribution<std::size_t> pick(0, mesh.points.size() - 1);
  for (int i = 0; i < 1000; ++i) {
    const Place& a = mesh.points[pick(random)];
    const Place& b = mesh.points[pick(random)];
    if (a == b)
      continue;
    check_alternation(probe, a, b);                                    // both ends on corners
    check_alternation(probe, between(a, b, -0.5), between(a, b, 1.5)); // through two corners, to rounding
  }
}

TEST_CASE("the length of many lines inside a solid gives its volume") {
  // Lines along z on a grid of 200 x 200: an independent way to the volume of a torus.
  const TriangleMesh mesh = torus(0.1, 0.03, 120);
  const SurfaceProbe probe(mesh);
  const int lines = 200;
  const double step = 0.26 / lines;
  double volume = 0;
  for (int i = 0; i < lines; ++i)
    for (int j = 0; j < lines; ++j) {
      const double x = -0.13 + (i + 0.5) * step, y = -0.13 + (j + 0.5) * step;
      volume += step * step * inside_length(probe, {x, y, -0.04}, {x, y, 0.04});
    }
  CHECK(volume == Approx(volume_of(mesh)).epsilon(5e-4));
}

TEST_CASE("a cavity is outside") {
  const SurfaceProbe probe(together(box({0, 0, 0}, {3, 3, 3}), inside_out(box({1, 1, 1}, {2, 2, 2}))));
  CHECK(probe.inside({0.5, 1.5, 1.5}));
  CHECK_FALSE(probe.inside({1.5, 1.5, 1.5}));
  CHECK(probe.crossings({-1, 1.5, 1.5}, {4, 1.5, 1.5}).size() == 4);
}

TEST_CASE("one probe answers several threads at once as it answers one") {
  const SurfaceProbe probe(knot({}, 120, 12));
  const auto answers = [&] {
    std::vector<double> found;
    for (int i = 0; i < 2000; ++i) {
      const double x = -0.15 + 0.3 * i / 2000;
      found.push_back(probe.signed_distance({x, 0.05, 0.01}));
      for (double at : probe.crossings({x, -0.2, 0.005}, {x, 0.2, 0.01}))
        found.push_back(at);
    }
    return found;
  };
  std::vector<double> first, second;
  std::thread one([&] { first = answers(); }), two([&] { second = answers(); });
  one.join();
  two.join();
  CHECK(first == second);
  CHECK(first == answers());
}
