#include "surface/field_mesh.hpp"

#include "crushwright/errors.hpp"
#include "surface/mesh_checks.hpp"
#include "surface/mesh_reader.hpp"
#include "surface/sample_meshes.hpp"

#include <catch2/catch.hpp>
#include <tbb/global_control.h>

#include <limits>
#include <numbers>

using namespace crushwright;
using namespace crushwright::mesh_checks;
using Catch::Matchers::Contains;

namespace {

constexpr double pi = std::numbers::pi;

FieldGrid cube_grid(double low, double high, int n) {
  FieldGrid grid;
  grid.origin = {low, low, low};
  grid.spacing = {(high - low) / n, (high - low) / n, (high - low) / n};
  grid.cells = {n, n, n};
  return grid;
}

double sphere(const Point& p) {
  return std::sqrt(dot(p, p)) - 1;
}

/// About z, radii 1 and 0.4.
double torus(const Point& p) {
  return std::hypot(std::hypot(p[0], p[1]) - 1, p[2]) - 0.4;
}

/// A wall of a thickness about a plane that lies askew to the grid.
FieldAt wall(double thickness) {
  return [=](const Point& p) { return std::abs((p[0] + 2 * p[1] + 2 * p[2]) / 3 - 0.8) - 0.5 * thickness; };
}

TriangleMesh read_back(const std::string& name, const TriangleMesh& mesh) {
  const sample_meshes::MeshFolder folder(name);
  std::string text = fmt::format("OFF\n{} {} 0\n", mesh.points.size(), mesh.triangles.size());
  for (const Point& p : mesh.points)
    text += fmt::format("{:.17g} {:.17g} {:.17g}\n", p[0], p[1], p[2]);
  for (const auto& t : mesh.triangles)
    text += fmt::format("3 {} {} {}\n", t[0], t[1], t[2]);
  return read_closed_mesh(folder.write("body.off", text));
}

} // namespace

TEST_CASE(
    "a meshed sphere and torus are closed, face outward and reach volume and area with the square of the spacing") {
  const struct {
    FieldAt field;
    double low, high, volume, area;
  } bodies[] = {{sphere, -1.1, 1.13, 4 * pi / 3, 4 * pi}, {torus, -1.5, 1.53, 2 * pi * pi * 0.16, 4 * pi * pi * 0.4}};
  for (const auto& body : bodies) {
    std::array<double, 3> volume_miss{}, area_miss{};
    for (std::size_t level = 0; level < 3; ++level) {
      const TriangleMesh mesh = mesh_of_field(body.field, cube_grid(body.low, body.high, 20 << level));
      REQUIRE(closed_and_oriented(mesh));
      CHECK(unused_points(mesh) == 0);
      volume_miss[level] = std::abs(volume(mesh) / body.volume - 1);
      area_miss[level] = std::abs(area(mesh) / body.area - 1);
    }
    INFO(volume_miss[0] << " " << volume_miss[1] << " " << volume_miss[2]);
    CHECK(volume_miss[2] < 1e-3);
    CHECK(area_miss[2] < 1e-3);
    for (std::size_t level = 0; level < 2; ++level) {
      CHECK(volume_miss[level] / volume_miss[level + 1] == Approx(4).epsilon(0.1));
      CHECK(area_miss[level] / area_miss[level + 1] == Approx(4).epsilon(0.15));
    }
  }
}

TEST_CASE("a plane wall keeps its thickness to 0.2 % where a grid step is more than half of it") {
  // A field |distance| - half interpolated between corners would lose up to half of such a wall.
  const double thickness = 0.1;
  const FieldGrid grid = cube_grid(0, 1, 18); // longest edge 0.0962
  REQUIRE(longest_edge(grid) < thickness);
  const TriangleMesh mesh = mesh_of_field(wall(thickness), grid);
  CHECK(closed_and_oriented(mesh));
  // Area of the plane x + 2 y + 2 z = 2.4 inside the unit cube: over (y, z) it is 3 times the part of the square
  // with 0.7 <= y + z <= 1.2, so that the wall's volume is 2.4 to second order in its thickness; exact here:
  const auto below = [](double s) { // volume of the cube with x + 2 y + 2 z <= s, for 2 <= s <= 3
    const auto cube = [](double v) { return v > 0 ? v * v * v : 0.0; };
    return (cube(s) - cube(s - 1) - 2 * cube(s - 2) + 2 * cube(s - 3)) / 24;
  };
  const double exact = below(3 * (0.8 + 0.5 * thickness)) - below(3 * (0.8 - 0.5 * thickness));
  CHECK(volume(mesh) == Approx(exact).epsilon(2e-3));
}

TEST_CASE("a body that leaves the box is closed by flat caps") {
  const FieldGrid grid = cube_grid(0, 0.8, 40); // cuts an eighth of the sphere at 0.8 too
  const TriangleMesh mesh = mesh_of_field(sphere, grid);
  CHECK(closed_and_oriented(mesh));
  // Between planes x = 0 and x = 0.8 and so on; the three lenses cut off do not meet, because 2 · 0.8² > 1.
  const double lens = pi * (2.0 / 3 - 0.8 + 0.8 * 0.8 * 0.8 / 3) / 4;
  CHECK(volume(mesh) == Approx(pi / 6 - 3 * lens).epsilon(1e-3));
  CHECK(triangles_in_plane(mesh, 0, 0.0).size() > 100);
  CHECK(triangles_in_plane(mesh, 0, grid.corner(40, 0, 0)[0]).size() > 100);
}

TEST_CASE("a full box has the box's own volume, and an empty one no triangles") {
  const FieldGrid grid = cube_grid(-1, 2, 7);
  const TriangleMesh full = mesh_of_field([](const Point&) { return -100.0; }, grid);
  CHECK(closed_and_oriented(full));
  CHECK(volume(full) == Approx(27).epsilon(1e-12));
  CHECK(area(full) == Approx(54).epsilon(1e-12));
  CHECK(mesh_of_field([](const Point&) { return 100.0; }, grid).triangles.empty());
}

TEST_CASE("neighbouring boxes share their cut to the last bit, and together hold the whole") {
  const FieldGrid whole = cube_grid(-1.47, 1.53, 48);
  FieldGrid left = whole, right = whole;
  left.cells[0] = 21;
  right.first[0] = 21;
  right.cells[0] = 27;
  const TriangleMesh one = mesh_of_field(torus, left), other = mesh_of_field(torus, right);
  CHECK(closed_and_oriented(one));
  CHECK(closed_and_oriented(other));
  const double cut = whole.corner(21, 0, 0)[0];
  const auto shared = triangles_in_plane(one, 0, cut);
  CHECK(shared.size() > 50);
  CHECK(shared == triangles_in_plane(other, 0, cut));
  CHECK(volume(one) + volume(other) == Approx(volume(mesh_of_field(torus, whole))).epsilon(1e-12));
}

TEST_CASE("another reader finds a meshed body closed, outward and free of crossings") {
  const TriangleMesh mesh = mesh_of_field(wall(0.2), cube_grid(0, 1, 16));
  const TriangleMesh back = read_back("field", mesh);
  CHECK(back.triangles.size() == mesh.triangles.size());
  CHECK(volume(back) == Approx(volume(mesh)).epsilon(1e-12));
}

TEST_CASE(
    "corners that lie exactly on the boundary leave the mesh closed; sharp edges are cut off within one grid cell") {
  // A cube of edge 1 whose faces run through corners of the grid.
  const auto cube = [](const Point& p) { return std::max({std::abs(p[0]), std::abs(p[1]), std::abs(p[2])}) - 0.5; };
  std::array<double, 2> missing{};
  for (std::size_t level = 0; level < 2; ++level) {
    const FieldGrid grid = cube_grid(-1, 1, 32 << level);
    const TriangleMesh mesh = mesh_of_field(cube, grid);
    CHECK(closed_and_oriented(mesh));
    missing[level] = 1 - volume(mesh);
    // At most half a grid square along each of the twelve edges; the faces miss a thousandth of a step.
    CHECK(missing[level] < 6 * grid.spacing[0] * grid.spacing[0] + 6e-3 * grid.spacing[0]);
    CHECK(missing[level] > 0);
    if (level == 0)
      CHECK_NOTHROW(read_back("exact", mesh));
  }
  CHECK(missing[0] / missing[1] == Approx(4).epsilon(0.1));
}

TEST_CASE("the same field gives the same mesh again, on one thread as on many") {
  const FieldGrid grid = cube_grid(-1.47, 1.53, 40);
  const TriangleMesh first = mesh_of_field(torus, grid);
  const tbb::global_control one_thread(tbb::global_control::max_allowed_parallelism, 1);
  const TriangleMesh again = mesh_of_field(torus, grid);
  CHECK(first.points == again.points);
  CHECK(first.triangles == again.triangles);
}

TEST_CASE("a mesh beyond the limit is refused with the spacing that fits") {
  FieldMeshLimit limit;
  limit.triangles = 1000;
  CHECK_THROWS_WITH(mesh_of_field(sphere, cube_grid(-1.1, 1.1, 40), limit),
                    Contains("more than the 1000 that are allowed: take a spacing of "));
  limit.corners = 1000;
  CHECK_THROWS_WITH(
      mesh_of_field(sphere, cube_grid(-1.1, 1.1, 40), limit),
      "a grid of 6.89e+04 points is more than the 1e+03 that are allowed: take a spacing of 4.141 times "
      "the present one, or smaller blocks");
  CHECK_THROWS_WITH(
      mesh_of_field([](const Point&) { return std::numeric_limits<double>::quiet_NaN(); }, cube_grid(0, 1, 4)),
      Contains("the body's field is not a number at ("));
  CHECK_THROWS_AS(mesh_of_field(sphere, cube_grid(1, -1, 4)), OutOfDomain);
}
