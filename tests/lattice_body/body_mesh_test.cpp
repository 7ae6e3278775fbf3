#include "lattice_body/body_mesh.hpp"

#include "crushwright/errors.hpp"
#include "lattice_body/lattice_field.hpp"
#include "surface/made_surfaces.hpp"
#include "surface/mesh_checks.hpp"
#include "surface/surface_probe.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <memory>
#include <numbers>

using namespace crushwright;
using namespace crushwright::mesh_checks;
using Catch::Matchers::Contains;

namespace {

constexpr double pi = std::numbers::pi;

SizeAt same_size(double size) {
  return [=](const Point&) { return size; };
}

FieldAt ball(double radius) {
  return [=](const Point& p) { return std::sqrt(dot(p, p)) - radius; };
}

/// A gyroid of 10 mm cells and 1.2 mm walls in a ball, under a skin of 1 mm.
LatticeSolid gyroid_ball(double radius = 0.02) {
  LatticeSolid solid;
  solid.cell = own_catalogue().cell("gyroid_sheet");
  solid.placement.cell_edge = 0.010;
  solid.size = same_size(0.0012);
  solid.box = {{-radius, -radius, -radius}, {radius, radius, radius}};
  solid.outer = ball(radius);
  solid.inset = 0.001;
  return solid;
}

BodyMeshOptions at_spacing(double spacing) {
  BodyMeshOptions options;
  options.spacing = spacing;
  return options;
}

} // namespace

TEST_CASE("a sheet lattice in a ball is closed and fills the inset ball to its relative density") {
  const LatticeSolid solid = gyroid_ball();
  const BodyPart part = mesh_body(solid, at_spacing(0.0005));
  CHECK(closed_and_oriented(part.mesh));
  const double room = 4 * pi / 3 * std::pow(0.019, 3);
  // A ball of four cells across does not cut as many rich as poor places; 2 % is what that leaves.
  CHECK(part.volume == Approx(room * relative_density(solid.cell, 0.12)).epsilon(0.02));
  CHECK(part.cut_area == 0);
  for (const Point& p : part.mesh.points)
    CHECK(dot(p, p) < 0.01901 * 0.01901);
}

TEST_CASE("with the skin in the same solid its volume comes on top") {
  // The corner where a wall meets the skin is filled across over one grid step, so two spacings tell the limit.
  const auto added = [](double spacing) {
    LatticeSolid solid = gyroid_ball(0.012);
    const double lattice = mesh_body(solid, at_spacing(spacing)).volume;
    solid.with_skin = true;
    const BodyPart whole = mesh_body(solid, at_spacing(spacing));
    CHECK(closed_and_oriented(whole.mesh));
    return whole.volume - lattice;
  };
  const double coarse = added(0.0005), fine = added(0.00025);
  const double skin = 4 * pi / 3 * (std::pow(0.012, 3) - std::pow(0.011, 3));
  CHECK(fine == Approx(skin).epsilon(0.01));
  CHECK(fine + (fine - coarse) / 3 == Approx(skin).epsilon(3e-3));
}

TEST_CASE("blocks are closed each by itself, and add up to the whole body") {
  LatticeSolid solid = gyroid_ball();
  solid.with_skin = true;
  const BodyPart whole = mesh_body(solid, at_spacing(0.00055));
  BodyMeshOptions options = at_spacing(0.00055);
  options.block_edge = 0.015;
  int blocks = 0;
  double cuts = 0;
  const BodyPart sum = mesh_body(solid, options, [&](const std::array<int, 3>&, const BodyPart& part) {
    ++blocks;
    cuts += part.cut_area;
    CHECK(closed_and_oriented(part.mesh));
  });
  CHECK(blocks == 27);
  CHECK(sum.volume == Approx(whole.volume).epsilon(1e-9));
  CHECK(sum.surface == Approx(whole.surface).epsilon(1e-9));
  CHECK(sum.cut_area == Approx(cuts));
  CHECK(cuts > 0);
}

TEST_CASE("a lattice turned about its corner keeps its volume, and moves with its placement") {
  // A box of whole cells, turned with the lattice: cut by the turned box as an outer surface.
  LatticeSolid straight;
  straight.cell = own_catalogue().cell("octet");
  straight.placement.cell_edge = 0.01;
  straight.size = same_size(0.0015);
  const auto cube =
      [](const Point& p) { // of edge 20 mm about the origin; not a distance at edges, but never too long
        return std::max({std::abs(p[0]), std::abs(p[1]), std::abs(p[2])}) - 0.01;
      };
  straight.outer = cube;
  straight.box = {{-0.01, -0.01, -0.01}, {0.01, 0.01, 0.01}};
  LatticeSolid turned = straight;
  const double c = std::cos(0.5), s = std::sin(0.5);
  turned.placement.axes = {{{c, s, 0}, {-s, c, 0}, {0, 0, 1}}};
  turned.outer = [=](const Point& p) { return cube({c * p[0] + s * p[1], -s * p[0] + c * p[1], p[2]}); };
  turned.box = {{-0.0141, -0.0141, -0.01}, {0.0141, 0.0141, 0.01}};
  const double volume_straight = mesh_body(straight, at_spacing(0.0002)).volume;
  CHECK(mesh_body(turned, at_spacing(0.0002)).volume == Approx(volume_straight).epsilon(5e-3));
  CHECK(volume_straight == Approx(8e-6 * relative_density(straight.cell, 0.15)).epsilon(0.01));
}

TEST_CASE("a graded wall gives the integral of its density") {
  LatticeSolid solid;
  solid.cell = own_catalogue().cell("primitive_sheet");
  solid.placement.cell_edge = 0.01;
  solid.size = [](const Point& p) { return 0.001 + 0.02 * p[0]; }; // 1 to 1.8 mm over four cells
  solid.box = {{0, 0, 0}, {0.04, 0.01, 0.01}};
  double density = 0;
  for (int i = 0; i < 400; ++i)
    density += relative_density(solid.cell, 0.1 + 0.02 * (i + 0.5) / 100 * 1.0) / 400;
  const BodyPart part = mesh_body(solid, at_spacing(0.00025));
  CHECK(closed_and_oriented(part.mesh));
  CHECK(part.volume == Approx(4e-6 * density).epsilon(5e-3));
}

TEST_CASE("plates at both ends cut the lattice flat") {
  LatticeSolid solid = gyroid_ball();
  solid.first_station = -0.01;
  solid.last_station = 0.012;
  for (const Point& p : mesh_body(solid, at_spacing(0.0006)).mesh.points) {
    CHECK(p[0] > -0.010001);
    CHECK(p[0] < 0.012001);
  }
}

TEST_CASE("a closed triangle surface serves as the outer surface") {
  LatticeSolid solid = gyroid_ball(0.012);
  const auto probe = std::make_shared<SurfaceProbe>(made_surfaces::sphere(0.012, 40));
  solid.outer = [probe](const Point& p) { return probe->signed_distance(p); };
  const double with_probe = mesh_body(solid, at_spacing(0.00068)).volume;
  CHECK(with_probe == Approx(mesh_body(gyroid_ball(0.012), at_spacing(0.00068)).volume).epsilon(5e-3));
}

TEST_CASE("a spacing that could lose a wall, or makes too many triangles, is refused with one that serves") {
  LatticeSolid solid = gyroid_ball();
  CHECK_THROWS_WITH(
      mesh_body(solid, at_spacing(0.001)),
      "Gyroid, sheet: a grid spacing of 1 mm could lose the wall thickness of 1.2 mm: take 0.6928 mm or "
      "less");
  solid.inset = 0.0005;
  solid.with_skin = true;
  CHECK_THROWS_WITH(mesh_body(solid, at_spacing(0.0006)), Contains("could lose the skin of 0.5 mm: take 0.2887 mm"));
  BodyMeshOptions options = at_spacing(0.0004);
  options.most_triangles = 50'000;
  try {
    mesh_body(gyroid_ball(), options);
    FAIL("a mesh of millions of triangles was begun");
  } catch (const OutOfDomain& fault) {
    const std::string message = fault.what();
    CHECK_THAT(message, Contains("Gyroid, sheet: at a spacing of 0.4 mm the mesh would hold about "));
    CHECK_THAT(message, Contains("triangles, more than the 5e+04 that are allowed: take "));
    // The block that it names fits indeed.
    const std::size_t at = message.rfind(" of ");
    options.block_edge = 1e-3 * std::stod(message.substr(at + 4));
    options.most_triangles = 65'000; // the estimate is good to a third
    double most = 0;
    mesh_body(gyroid_ball(), options, [&](const std::array<int, 3>&, const BodyPart& part) {
      most = std::max(most, double(part.mesh.triangles.size()));
    });
    CHECK(most > 20'000);
    CHECK(most < 65'000);
  }
}

TEST_CASE("what cannot be placed or sized is refused with its value") {
  LatticeSolid solid = gyroid_ball();
  solid.placement.axes[0] = {0, 1, 0};
  CHECK_THROWS_WITH(mesh_body(solid, at_spacing(0.0005)), Contains("three unit vectors at right angles"));
  solid = gyroid_ball();
  solid.size = same_size(0.009);
  CHECK_THROWS_WITH(mesh_body(solid, at_spacing(0.0005)), Contains("the wall thickness is 9 mm, 0.9 of the edge"));
  solid = gyroid_ball();
  solid.outer = nullptr;
  CHECK_THROWS_WITH(mesh_body(solid, at_spacing(0.0005)), "a skin needs an outer surface");
}

TEST_CASE("the lattice's field is the distance near the metal, and never longer farther off") {
  // Against the distance to a dense cloud of points on the boundary, taken from a fine mesh.
  const UnitCell cell = own_catalogue().cell("octet");
  LatticePlacement placement;
  placement.cell_edge = 1;
  const FieldAt field = lattice_field(cell, placement, same_size(0.12));
  const TriangleMesh mesh = mesh_cell(cell, 0.12, 1, at_spacing(0.02)).mesh;
  for (int i = 0; i < 60; ++i) {
    const Point at{0.3 + 0.4 * std::fmod(0.618034 * i, 1), 0.3 + 0.4 * std::fmod(0.754878 * i, 1),
                   0.3 + 0.4 * std::fmod(0.569840 * i, 1)};
    double nearest = 1;
    for (const Point& p : mesh.points)
      nearest = std::min(nearest, std::sqrt(dot(minus(p, at), minus(p, at))));
    const double stated = field(at);
    CHECK(std::abs(stated) < nearest + 1e-3);
    if (stated > 0)
      CHECK(stated > nearest - 0.012); // the cloud's own gaps
  }
}
