#include "crushwright/surface.hpp"
#include "surface/made_surfaces.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace crushwright;
using namespace crushwright::made_surfaces;

namespace {

constexpr double pi = std::numbers::pi;

/// Closed forms of elementary geometry.
struct Solid {
  const char* name;
  TriangleMesh (*mesh)(int rings);
  double volume;
  double area;
};

const std::array<Solid, 3> solids{
    {{"sphere of radius 1", [](int rings) { return sphere(1, rings); }, 4 * pi / 3, 4 * pi},
     {"cone of radius 1 and height 2", [](int rings) { return cone(1, 2, rings); }, 2 * pi / 3,
      pi * (1 + std::sqrt(5.0))},
     {"torus of radii 2 and 0.5", [](int rings) { return torus(2, 0.5, rings); }, pi* pi, 4 * pi* pi}}};

} // namespace

TEST_CASE("sphere, cone and torus of 100 rings have volume and area within 0.1 % of the closed forms") {
  // Sphere and cone: 200 points a circle; the torus has as many points a circle as rings, so 200 of them.
  for (const Solid& solid : solids) {
    INFO(solid.name);
    const TriangleMesh mesh = solid.mesh(solid.name[0] == 't' ? 200 : 100);
    CHECK(volume_of(mesh) == Approx(solid.volume).epsilon(1e-3));
    CHECK(area_of(mesh) == Approx(solid.area).epsilon(1e-3));
  }
}

TEST_CASE("volume and area of sphere, cone and torus converge with the square of the triangles' size") {
  for (const Solid& solid : solids) {
    INFO(solid.name);
    const TriangleMesh coarse = solid.mesh(60), fine = solid.mesh(120);
    const auto order = [](double wrong, double less_wrong) { return std::log2(std::abs(wrong / less_wrong)); };
    CHECK(order(volume_of(coarse) - solid.volume, volume_of(fine) - solid.volume) == Approx(2).margin(0.06));
    CHECK(order(area_of(coarse) - solid.area, area_of(fine) - solid.area) == Approx(2).margin(0.06));
  }
}

TEST_CASE("a knotted tube encloses its section times its length") {
  // A tube that nowhere meets itself has the volume pi r^2 L and the area 2 pi r L, whatever its bends (Pappus).
  const KnotShape shape;
  const double length = knot_length(shape);
  const TriangleMesh mesh = knot(shape, 1200, 120);
  CHECK(volume_of(mesh) == Approx(pi * shape.tube_radius * shape.tube_radius * length).epsilon(1e-3));
  CHECK(area_of(mesh) == Approx(2 * pi * shape.tube_radius * length).epsilon(1e-3));
}

TEST_CASE("a notched box has the volume and the area of its faces") {
  const TriangleMesh mesh = notched_box({{3, 2, 4}, {1, 2, 1.5}});
  CHECK(volume_of(mesh) == Approx(3 * 2 * 4 - 1 * 2 * 1.5));
  CHECK(area_of(mesh) == Approx(2 * (12 - 1.5) + 2 * 14)); // two sides, and the outline's length 14 times 2
}

TEST_CASE("far from the origin a volume keeps its digits") {
  CHECK(volume_of(moved(box({0, 0, 0}, {1, 1, 1}), {1e5, -1e5, 1e5})) == Approx(1).epsilon(1e-10));
}

TEST_CASE("a surface turned inside out has a volume below zero and the same area") {
  const TriangleMesh mesh = box({0, 0, 0}, {1, 2, 3});
  CHECK(volume_of(inside_out(mesh)) == Approx(-6));
  CHECK(area_of(inside_out(mesh)) == Approx(22));
}

TEST_CASE("bounds hold a mesh, and a mesh without points has none") {
  const SurfaceBounds bounds = bounds_of(box({-1, 2, 3}, {4, 6, 9}));
  CHECK(bounds.low == std::array<double, 3>{-1, 2, 3});
  CHECK(bounds.high == std::array<double, 3>{4, 6, 9});
  CHECK(bounds.size() == std::array<double, 3>{5, 4, 6});
  CHECK(bounds_of({}).size() == std::array<double, 3>{0, 0, 0});
  CHECK(volume_of({}) == 0);
  CHECK(area_of({}) == 0);
}
