#include "envelope/surface_sections.hpp"

#include "envelope/folding_corners.hpp"
#include "envelope/polygon.hpp"
#include "envelope/sections.hpp"
#include "surface/made_surfaces.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace crushwright;
namespace made = crushwright::made_surfaces;

namespace {

constexpr double pi = std::numbers::pi;

Envelope sliced(const TriangleMesh& mesh, int layers = 48) {
  Envelope envelope;
  envelope.sections = surface_sections(mesh, layers);
  envelope.surface = std::make_shared<const TriangleMesh>(mesh);
  return envelope;
}

/// A torus about z lies from -(R + r) to R + r; sections begin at 0.
TriangleMesh from_zero(const TriangleMesh& mesh) {
  return made::moved(mesh, {-bounds_of(mesh).low[0], 0, 0});
}

/// As the layers of the computation take it: every layer by the cut in its middle.
double volume_by_layers(const Envelope& envelope) {
  double volume = 0;
  const std::size_t layers = envelope.sections.size() / 2;
  for (std::size_t i = 0; i < layers; ++i)
    volume += properties_of(envelope.sections[2 * i + 1]).area * envelope.length() / static_cast<double>(layers);
  return volume;
}

/// Points of a rounded rectangle, counter-clockwise, with facets on every corner arc.
Polygon rounded(double width, double height, double radius, int facets) {
  Polygon line;
  for (int corner = 0; corner < 4; ++corner)
    for (int i = 0; i <= facets; ++i) {
      const double angle = pi / 2 * (corner + static_cast<double>(i) / facets);
      const double y = (corner == 0 || corner == 3 ? 1 : -1) * (width / 2 - radius);
      const double z = (corner < 2 ? 1 : -1) * (height / 2 - radius);
      line.push_back({y + radius * std::cos(angle), z + radius * std::sin(angle)});
    }
  return line;
}

Polygon ring(double width, double height, int points) {
  Polygon line;
  for (int i = 0; i < points; ++i)
    line.push_back({width / 2 * std::cos(2 * pi * i / points), height / 2 * std::sin(2 * pi * i / points)});
  return line;
}

/// More points on every edge, as a plane leaves them that cuts triangles across.
Polygon with_points_between(const Polygon& line, int parts) {
  Polygon finer;
  for (std::size_t i = 0; i < line.size(); ++i)
    for (int part = 0; part < parts; ++part) {
      const Point& next = line[(i + 1) % line.size()];
      const double along = static_cast<double>(part) / parts;
      finer.push_back({line[i][0] + along * (next[0] - line[i][0]), line[i][1] + along * (next[1] - line[i][1])});
    }
  return finer;
}

} // namespace

TEST_CASE("the volume of sphere, cone and torus comes out of their cuts within 0.1 %") {
  // Closed forms; 48 layers as in a case, meshes of 0.9 degrees a facet.
  const Envelope sphere = sliced(from_zero(made::sphere(0.08, 200)));
  CHECK(volume_of(sphere) == Approx(4.0 / 3 * pi * std::pow(0.08, 3)).epsilon(1e-3));
  CHECK(volume_by_layers(sphere) == Approx(4.0 / 3 * pi * std::pow(0.08, 3)).epsilon(1e-3));
  const Envelope cone = sliced(made::cone(0.06, 0.3, 200));
  CHECK(volume_of(cone) == Approx(pi / 3 * 0.06 * 0.06 * 0.3).epsilon(1e-3));
  CHECK(volume_by_layers(cone) == Approx(pi / 3 * 0.06 * 0.06 * 0.3).epsilon(1e-3));
  const Envelope torus = sliced(from_zero(made::torus(0.10, 0.03, 200)));
  CHECK(volume_of(torus) == Approx(2 * pi * pi * 0.10 * 0.03 * 0.03).epsilon(1e-3));
  CHECK(volume_by_layers(torus) == Approx(2 * pi * pi * 0.10 * 0.03 * 0.03).epsilon(1e-3));
}

TEST_CASE("a cut of a sphere is a circle: area, perimeter, offset term, no corner, its centre") {
  const Envelope sphere = sliced(made::moved(made::sphere(0.08, 200), {0.08, 0.3, -0.2}));
  const Section middle = section_at(sphere, 0.08);
  const SectionProperties circle = properties_of(middle);
  CHECK(circle.area == Approx(pi * 0.08 * 0.08).epsilon(1e-3));
  CHECK(circle.perimeter == Approx(2 * pi * 0.08).epsilon(1e-3));
  CHECK(circle.offset_term == Approx(pi).epsilon(1e-3));
  CHECK(circle.smallest_width == Approx(0.16).epsilon(1e-3));
  CHECK(circle.corner_count == 0);
  CHECK(middle.figure.centroid[0] == Approx(0.3).epsilon(1e-9));
  CHECK(middle.figure.centroid[1] == Approx(-0.2).epsilon(1e-9));
  // The area inside a skin: a smaller circle.
  CHECK(area_inside(circle, 0.002) == Approx(pi * 0.078 * 0.078).epsilon(1e-3));
}

TEST_CASE("between two cuts properties are linear, which misses a curved area by h^2 A'' / 8 at most") {
  const double radius = 0.08;
  const Envelope sphere = sliced(from_zero(made::sphere(radius, 200)));
  const double step = sphere.length() / 96;
  const double station = 30.5 * step; // half way between two cuts; the area's second derivative is -2 π
  const double exact = pi * (2 * radius * station - station * station);
  const double missed = exact - properties_of(section_at(sphere, station)).area;
  CHECK(missed == Approx(2 * pi * step * step / 8).margin(1e-3 * exact));
  CHECK(missed < 2e-3 * exact);
}

TEST_CASE("a hole counts in perimeter and area, and the skin lines it") {
  // A ring cut across its axis: the torus about z, in the plane through the axis' own direction at x = 0, shows two
  // circles; lying about x it shows a ring.
  TriangleMesh lying = made::torus(0.10, 0.03, 200);
  for (auto& point : lying.points)
    point = {point[2], point[0], point[1]}; // the axes in cyclic order: faces stay outward
  const Envelope torus = sliced(from_zero(lying));
  const Section middle = section_at(torus, 0.03);
  CHECK(middle.figure.loops->size() == 2);
  const SectionProperties annulus = properties_of(middle);
  CHECK(annulus.area == Approx(pi * (0.13 * 0.13 - 0.07 * 0.07)).epsilon(1e-3));
  CHECK(annulus.perimeter == Approx(2 * pi * (0.13 + 0.07)).epsilon(1e-3));
  CHECK(annulus.offset_term == Approx(0).margin(1e-2));
  CHECK(area_inside(annulus, 0.001) == Approx(pi * (0.129 * 0.129 - 0.071 * 0.071)).epsilon(1e-3));
  const auto remarks = remarks_on(torus.sections);
  REQUIRE(remarks.size() == 1);
  CHECK(remarks[0] ==
        "the surface has an opening inside its outline between 0 mm and 60 mm. The skin is taken to line "
        "it too: both outlines and their corners are added and fold as one wall.");
}

TEST_CASE("a forked body is said to be one, with the stations between which it is") {
  const Envelope torus = sliced(from_zero(made::torus(0.10, 0.03, 120)));
  const SectionProperties two = properties_of(section_at(torus, 0.13));
  CHECK(two.area == Approx(2 * pi * 0.03 * 0.03).epsilon(2e-3));
  CHECK(two.smallest_width == Approx(0.06).epsilon(2e-3));
  // The hole runs from 60 to 200 mm; cuts lie 2.708 mm apart.
  const auto remarks = remarks_on(torus.sections);
  REQUIRE(remarks.size() == 1);
  CHECK(remarks[0] == "the surface has several separate outlines between 62.29 mm and 197.7 mm. Their areas, "
                      "outlines and corners are "
                      "added, and the skin folds as one wall of that length; the smallest width is that of the "
                      "largest. Give separate "
                      "columns separate structures.");
}

TEST_CASE("facets of a curve are no corners, however a plane cuts them across") {
  for (const int points : {18, 24, 36, 72, 360, 2000})
    for (const int parts : {1, 2, 5}) {
      INFO(points << " facets in " << parts);
      CHECK(folding_corners(with_points_between(ring(0.1, 0.1, points), parts)) == 0);
      CHECK(folding_corners(with_points_between(ring(0.12, 0.09, points), parts)) == 0);
    }
}

TEST_CASE(
    "the corners of a rounded rectangle are four, with any number of facets, until they are most of the outline") {
  for (const int facets : {1, 2, 3, 4, 8, 30})
    for (const int parts : {1, 3}) {
      INFO(facets << " facets a corner in " << parts);
      CHECK(folding_corners(with_points_between(rounded(0.084, 0.104, 0.003, facets), parts)) == 4);
    }
  for (const int facets : {3, 4, 8, 30}) {
    INFO(facets << " facets a corner");
    CHECK(folding_corners(rounded(0.084, 0.104, 0.014, facets)) == 4); // the demo case's struck end
    CHECK(folding_corners(rounded(0.116, 0.142, 0.019, facets)) == 4); // and its attachment
    CHECK(folding_corners(rounded(0.090, 0.110, 0.020, facets)) == 4);
    CHECK(folding_corners(rounded(0.100, 0.100, 0.048, facets)) == 0); // nearly a circle
  }
}

TEST_CASE("sharp corners are counted as of a typed polygon") {
  CHECK(folding_corners(sections::angle_section().corners) == 6);
  CHECK(folding_corners(with_points_between(sections::angle_section().corners, 7)) == 6);
  CHECK(folding_corners(sections::regular_polygon(5, 0.05).corners) == 5);
  CHECK(folding_corners(sections::regular_polygon(6, 0.05).corners) == 6);
  CHECK(folding_corners(sections::regular_polygon(8, 0.05).corners) == 8);
  // A thin strip's end is two right angles close together.
  CHECK(folding_corners(rounded(0.2, 0.002, 0.0005, 4)) == 4);
}

TEST_CASE("a body shifted across its axis has its centroid line shifted and nothing else changed") {
  const TriangleMesh cone = made::tapered_cone({}, 40, 12);
  const TriangleMesh based = from_zero(cone);
  const Envelope here = sliced(based), there = sliced(made::moved(based, {0, 0.05, -0.02}));
  const CentroidLine line = centroid_line(here), shifted = centroid_line(there);
  CHECK(shifted.tilt == Approx(line.tilt).epsilon(1e-9));
  CHECK(shifted.steepest_tilt == Approx(line.steepest_tilt).epsilon(1e-9));
  for (std::size_t i = 0; i < here.sections.size(); ++i) {
    const SectionProperties a = properties_of(here.sections[i]), b = properties_of(there.sections[i]);
    CHECK(b.area == Approx(a.area).epsilon(1e-9));
    CHECK(b.perimeter == Approx(a.perimeter).epsilon(1e-9));
    CHECK(b.corner_count == a.corner_count);
    CHECK(shifted.at[i][0] - line.at[i][0] == Approx(0.05).epsilon(1e-9));
    CHECK(shifted.at[i][1] - line.at[i][1] == Approx(-0.02).epsilon(1e-9));
  }
}

TEST_CASE("the centroid line of a leaning prism leans as the prism does, on the whole and at its steepest") {
  TriangleMesh prism = made::box({0, 0, 0}, {0.4, 0.06, 0.06});
  const double lean = 7 * pi / 180;
  for (auto& point : prism.points)
    point[1] += point[0] * std::tan(lean);
  const CentroidLine line = centroid_line(sliced(prism));
  CHECK(line.tilt == Approx(lean).epsilon(1e-5));
  CHECK(line.steepest_tilt == Approx(lean).epsilon(1e-4));
  // Typed sections say the same.
  Envelope typed;
  typed.sections = {sections::rectangle(0.06, 0.06), sections::rectangle(0.06, 0.06)};
  typed.sections[1].station = 0.4;
  typed.sections[1].centre = {0.4 * std::tan(lean), 0};
  CHECK(centroid_line(typed).tilt == Approx(lean).epsilon(1e-12));
  CHECK(centroid_line(typed).steepest_tilt == Approx(lean).epsilon(1e-9));
}

TEST_CASE("a mirrored surface faces outward, and its sections are the mirrored ones") {
  const Envelope left = sliced(from_zero(made::tapered_cone({}, 30, 6)));
  const Envelope right = mirrored(left);
  CHECK(volume_of(*right.surface) == Approx(volume_of(*left.surface)).epsilon(1e-12));
  CHECK(volume_of(right) == Approx(volume_of(left)).epsilon(1e-12));
  const Section a = section_at(left, 0.2), b = section_at(right, 0.2);
  CHECK(properties_of(a) == properties_of(b));
  CHECK(b.figure.centroid[0] == -a.figure.centroid[0]);
  CHECK(signed_area(outline(b)) == Approx(signed_area(outline(a))));
  CHECK(outline(b).back()[0] == -outline(a).front()[0]);
}

TEST_CASE("a tip that comes to a point has a section of next to no area, and the ends of others keep theirs") {
  const Envelope cone = sliced(made::cone(0.06, 0.3, 60)); // its apex is the attachment here
  CHECK(properties_of(cone.sections.back()).area < 1e-12);
  CHECK(outline(cone.sections.back()).size() >= 3);
  CHECK(properties_of(cone.sections.front()).area == Approx(pi * 0.06 * 0.06).epsilon(2e-3));
  const Envelope box = sliced(made::box({0, 0, 0}, {0.4, 0.06, 0.08}), 4);
  CHECK(box.sections.size() == 9);
  for (const Section& section : box.sections) {
    CHECK(properties_of(section).area == Approx(0.06 * 0.08).epsilon(1e-12));
    CHECK(properties_of(section).corner_count == 4);
    CHECK(section.width == Approx(0.06));
    CHECK(section.height == Approx(0.08));
  }
}
