#include "crushwright/envelope.hpp"
#include "envelope/sections.hpp"
#include "envelope/triangulation.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

using namespace crushwright;
using namespace sections;

namespace {

constexpr double pi = std::numbers::pi;

Envelope between(Section struck_end, Section attachment, double length) {
  attachment.station = length;
  return {{std::move(struck_end), std::move(attachment)}, {}};
}

/// Every edge is used once there and once back, and no triangle has the same corner twice.
bool closed(const TriangleMesh& mesh) {
  std::map<std::pair<std::int32_t, std::int32_t>, int> uses;
  for (const auto& triangle : mesh.triangles)
    for (std::size_t i = 0; i < 3; ++i) {
      if (triangle[i] == triangle[(i + 1) % 3])
        return false;
      ++uses[{triangle[i], triangle[(i + 1) % 3]}];
    }
  for (const auto& [edge, count] : uses)
    if (count != 1 || uses.count({edge.second, edge.first}) != 1)
      return false;
  return true;
}

/// By the divergence theorem; negative when the faces look inward.
double enclosed(const TriangleMesh& mesh) {
  double six = 0;
  for (const auto& triangle : mesh.triangles) {
    const auto& a = mesh.points[static_cast<std::size_t>(triangle[0])];
    const auto& b = mesh.points[static_cast<std::size_t>(triangle[1])];
    const auto& c = mesh.points[static_cast<std::size_t>(triangle[2])];
    six +=
        a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return six / 6;
}

double prismatoid(double length, double nearer, double middle, double farther) {
  return length / 6 * (nearer + 4 * middle + farther);
}

Section shifted(Section section, double y, double z) {
  section.centre = {y, z};
  return section;
}

} // namespace

TEST_CASE("the surface through typed sections is closed, faces outward and holds the prismatoid's volume") {
  const double length = 0.54;
  const auto holds = [&](const Section& nearer, const Section& farther, double volume) {
    const TriangleMesh mesh = surface_of(between(nearer, farther, length));
    CHECK(closed(mesh));
    CHECK(enclosed(mesh) == Approx(volume).epsilon(1e-3));
    CHECK(volume_of(between(nearer, farther, length)) == Approx(volume).epsilon(1e-12));
  };
  SECTION("rectangles: the frustum's closed form") {
    const double a = 0.08 * 0.10, b = 0.12 * 0.15; // similar ends
    holds(rectangle(0.08, 0.10), shifted(rectangle(0.12, 0.15), 0.03, -0.02),
          length / 3 * (a + std::sqrt(a * b) + b));
  }
  SECTION("circles: the cone's frustum") {
    holds(ellipse(0.08, 0.08), ellipse(0.14, 0.14), pi * length / 12 * (0.08 * 0.08 + 0.08 * 0.14 + 0.14 * 0.14));
  }
  SECTION("ellipses of changing aspect") {
    holds(ellipse(0.08, 0.16), ellipse(0.16, 0.08),
          prismatoid(length, pi / 4 * 0.08 * 0.16, pi / 4 * 0.12 * 0.12, pi / 4 * 0.08 * 0.16));
  }
  SECTION("rounded rectangles, one of them without flats and one without a radius") {
    const auto area = [](double w, double h, double r) { return w * h - (4 - pi) * r * r; };
    holds(rounded_rectangle(0.10, 0.10, 0.05), rounded_rectangle(0.14, 0.20, 0.01),
          prismatoid(length, area(0.10, 0.10, 0.05), area(0.12, 0.15, 0.03), area(0.14, 0.20, 0.01)));
    holds(rounded_rectangle(0.10, 0.12, 0), rounded_rectangle(0.14, 0.20, 0.02),
          prismatoid(length, area(0.10, 0.12, 0), area(0.12, 0.16, 0.01), area(0.14, 0.20, 0.02)));
  }
  SECTION("trapezoids") {
    holds(trapezoid(0.12, 0.08, 0.10), trapezoid(0.16, 0.14, 0.12), prismatoid(length, 0.010, 0.125 * 0.11, 0.018));
  }
  SECTION("polygons with a corner that turns inwards") {
    Section larger = angle_section();
    for (auto& corner : larger.corners)
      corner = {1.5 * corner[0], 1.5 * corner[1]};
    const double area = 0.150 * 0.060 + 0.060 * 0.090;
    holds(angle_section(), larger, length / 3 * area * (1 + 1.5 + 2.25));
  }
  SECTION("polygons that turn on the way: the sides are not plane") {
    const double start = shoelace_area(regular_polygon(5, 0.07, 0.1).corners);
    const Section turned = regular_polygon(5, 0.07, 0.5);
    // Half way every corner is the mean of two that lie 0.4 rad apart.
    holds(regular_polygon(5, 0.07, 0.1), turned,
          prismatoid(length, start, start * std::pow(std::cos(0.2), 2), start));
  }
}

TEST_CASE("a surface through three stations follows the one between") {
  Envelope body = between(rectangle(0.1, 0.1), rectangle(0.1, 0.1), 0.4);
  Section waist = rectangle(0.05, 0.1);
  waist.station = 0.1;
  body.sections.insert(body.sections.begin() + 1, waist);
  const TriangleMesh mesh = surface_of(body);
  CHECK(closed(mesh));
  CHECK(enclosed(mesh) == Approx(0.4 * 0.075 * 0.1).epsilon(1e-12));
}

TEST_CASE("a polygon is filled by triangles that turn its own way and add up to its area") {
  for (const Section& section : {angle_section(), five_sided(), regular_polygon(40, 0.05)}) {
    const Points& corners = section.corners;
    double area = 0;
    const auto triangles = triangulation(corners);
    CHECK(triangles.size() == corners.size() - 2);
    for (const auto& [a, b, c] : triangles) {
      const double part = shoelace_area({corners[a], corners[b], corners[c]});
      CHECK(part > 0);
      area += part;
    }
    CHECK(area == Approx(shoelace_area(corners)).epsilon(1e-12));
  }
}
