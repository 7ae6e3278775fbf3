#include "printability/sample_subjects.hpp"

#include "printability/vector.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_subjects;

namespace {

/// A sphere of rings of latitude about z; every facet lies between two meridians.
TriangleMesh sphere(double radius, int rings, int meridians) {
  TriangleMesh mesh;
  const double pi = std::numbers::pi;
  const auto point = [&](int ring, int meridian) {
    const double polar = pi * ring / rings, around = 2 * pi * (meridian % meridians) / meridians;
    return std::array<double, 3>{radius * std::sin(polar) * std::cos(around),
                                 radius * std::sin(polar) * std::sin(around), radius * std::cos(polar)};
  };
  const auto add = [&](const std::array<double, 3>& a, const std::array<double, 3>& b,
                       const std::array<double, 3>& c) {
    const auto first = static_cast<std::int32_t>(mesh.points.size());
    mesh.points.insert(mesh.points.end(), {a, b, c});
    mesh.triangles.push_back({first, first + 1, first + 2});
  };
  for (int ring = 0; ring < rings; ++ring)
    for (int meridian = 0; meridian < meridians; ++meridian) {
      const auto a = point(ring, meridian), b = point(ring + 1, meridian), c = point(ring + 1, meridian + 1),
                 d = point(ring, meridian + 1);
      if (ring + 1 < rings)
        add(a, b, c);
      if (ring > 0)
        add(a, c, d);
    }
  return mesh;
}

} // namespace

TEST_CASE("the overhang of a sphere is the cap about its lowest point") {
  // The tangent plane at the polar angle ψ from the lowest point leans by ψ: flatter than θ are 2 π R² (1 - cos θ).
  constexpr double radius = 0.05;
  const TriangleMesh ball = sphere(radius, 360, 360);
  for (const double angle : {30.0, 45.0, 60.0}) {
    const double cap = 2 * std::numbers::pi * radius * radius * (1 - std::cos(angle * degree));
    const Overhang found = overhang_of(ball, {0, 0, 1}, angle * degree);
    CHECK(found.outside == Approx(cap).epsilon(1e-3)); // facets: ring edges lie on whole half degrees
    CHECK(found.inside == Approx(cap).epsilon(1e-3));  // the roof of the hollow sphere
    CHECK(found.whole == Approx(4 * std::numbers::pi * radius * radius).epsilon(1e-3));
  }
}

TEST_CASE("a sphere hangs over alike in every direction") {
  const TriangleMesh ball = sphere(0.05, 180, 180);
  const double upright = overhang_of(ball, {0, 0, 1}, 45 * degree).outside;
  for (const Vector& way : {Vector{1, 0, 0}, Vector{1, 1, 0}, Vector{1, -2, 3}})
    CHECK(overhang_of(ball, scaled(way, 1 / norm(way)), 45 * degree).outside == Approx(upright).epsilon(0.01));
}

TEST_CASE("a box on the platform has no overhang outside and its lid inside") {
  const TriangleMesh walls = surface_of(box(0.3, 0.1, 0.2));
  const Overhang upright = overhang_of(walls, {-1, 0, 0}, 45 * degree);
  CHECK(upright.outside == 0);
  CHECK(upright.on_platform == Approx(0.02).margin(1e-12));
  CHECK(upright.inside == Approx(0.02).margin(1e-12));
  CHECK(upright.whole == Approx(2 * (0.02 + 0.03 + 0.06)).margin(1e-12));
  const Overhang lying = overhang_of(walls, {0, 0, 1}, 45 * degree);
  CHECK(lying.outside == 0);
  CHECK(lying.inside == Approx(0.03).margin(1e-12));
}

TEST_CASE("a box on its edge overhangs where its sides are flatter than the angle") {
  const TriangleMesh walls = surface_of(box(0.3, 0.1, 0.2));
  // Turned by 30 degrees: one lower face leans 30 degrees from the platform, the other 60.
  const BuildDirection up{0, -std::sin(30 * degree), std::cos(30 * degree)};
  CHECK(overhang_of(walls, up, 45 * degree).outside == Approx(0.3 * 0.1).margin(1e-9));
  CHECK(overhang_of(walls, up, 65 * degree).outside == Approx(0.3 * (0.1 + 0.2)).margin(1e-9));
  CHECK(overhang_of(walls, up, 25 * degree).outside == 0);
}

TEST_CASE("no more than the whole surface hangs over, inside and outside apart") {
  const TriangleMesh ball = sphere(0.05, 60, 60);
  const Overhang found = overhang_of(ball, {0, 0, 1}, 89.9 * degree);
  CHECK(found.outside <= found.whole);
  CHECK(found.outside + found.inside <= found.whole * (1 + 1e-12));
}
