#include "crushwright/errors.hpp"
#include "crushwright/exchange.hpp"
#include "exchange/print_file_reader.hpp"
#include "surface/made_surfaces.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace crushwright;
using namespace crushwright::print_file_reader;

namespace {

/// Four struts of a tetrahedron's centre, radii that change along them; a corner below zero.
StrutBody four_struts() {
  StrutBody body;
  body.nodes = {{0, 0, 0},
                {0.005, 0.005, 0.005},
                {-0.005, -0.005, 0.005},
                {-0.005, 0.005, -0.005},
                {0.0050001, -0.005, -0.005}};
  for (int end = 1; end <= 4; ++end)
    body.struts.push_back({0, end, 0.0005, 0.0005 + 0.00005 * end});
  return body;
}

/// n × n × n nodes 4 mm apart, joined along the axes.
StrutBody cubic_body(int n) {
  StrutBody body;
  const auto place = [&](int x, int y, int z) { return (z * n + y) * n + x; };
  for (int z = 0; z < n; ++z)
    for (int y = 0; y < n; ++y)
      for (int x = 0; x < n; ++x) {
        body.nodes.push_back({0.004 * x, 0.004 * y - 0.01, 0.004 * z});
        if (x + 1 < n)
          body.struts.push_back({place(x, y, z), place(x + 1, y, z), 0.0004, 0.0004});
        if (y + 1 < n)
          body.struts.push_back({place(x, y, z), place(x, y + 1, z), 0.0005, 0.0004});
        if (z + 1 < n)
          body.struts.push_back({place(x, y, z), place(x, y, z + 1), 0.0004, 0.00061});
      }
  return body;
}

void check_same(const StrutBody& body, const ReadObject& object) {
  REQUIRE(object.points.size() == body.nodes.size());
  REQUIRE(object.beams.size() == body.struts.size());
  for (std::size_t i = 0; i < body.nodes.size(); ++i)
    for (std::size_t axis = 0; axis < 3; ++axis)
      // Half the last digit, and the reader's single precision.
      CHECK(std::abs(object.points[i][axis] - 1e3 * body.nodes[i][axis]) <
            5.1e-5 + 1e-6 * std::abs(object.points[i][axis]));
  for (std::size_t i = 0; i < body.struts.size(); ++i) {
    CHECK(object.beams[i].nodes[0] == unsigned(body.struts[i].from));
    CHECK(object.beams[i].nodes[1] == unsigned(body.struts[i].to));
    CHECK(object.beams[i].radii[0] == Approx(1e3 * body.struts[i].from_radius).margin(5.1e-5));
    CHECK(object.beams[i].radii[1] == Approx(1e3 * body.struts[i].to_radius).margin(5.1e-5));
    CHECK(object.beams[i].ball_ends);
  }
}

} // namespace

TEST_CASE("lib3mf opens a body of struts without a warning and finds every strut with both radii") {
  for (const StrutBody& body : {four_struts(), cubic_body(6)}) {
    const ReadFile file = read_print_file(write_3mf(body, {}, {"Rear structure & sons <left>", "lattice", "skin"}));
    CHECK(file.warnings == 0);
    CHECK(file.in_millimetres);
    CHECK(file.build_items == 1);
    REQUIRE(file.objects.size() == 1);
    CHECK(file.objects[0].name == "lattice");
    CHECK(file.objects[0].triangles == 0);
    check_same(body, file.objects[0]);
  }
}

TEST_CASE("the skin stands beside the struts as a second object") {
  const TriangleMesh skin = made_surfaces::sphere(0.02, 12);
  const ReadFile file = read_print_file(write_3mf(four_struts(), skin, {"", "struts \"a\"", "outer skin"}));
  CHECK(file.warnings == 0);
  CHECK(file.build_items == 2);
  REQUIRE(file.objects.size() == 2);
  CHECK(file.objects[0].name == "struts \"a\"");
  check_same(four_struts(), file.objects[0]);
  CHECK(file.objects[1].name == "outer skin");
  CHECK(file.objects[1].points.size() == skin.points.size());
  CHECK(file.objects[1].triangles == skin.triangles.size());
  CHECK(file.objects[1].beams.empty());
}

TEST_CASE("lib3mf opens a mesh without a warning") {
  const TriangleMesh mesh = made_surfaces::torus(0.03, 0.01, 16);
  const ReadFile file = read_print_file(write_3mf(mesh, {"block", "gyroid", ""}));
  CHECK(file.warnings == 0);
  REQUIRE(file.objects.size() == 1);
  CHECK(file.objects[0].triangles == mesh.triangles.size());
  for (std::size_t i = 0; i < mesh.points.size(); ++i)
    CHECK(file.objects[0].points[i][0] == Approx(1e3 * mesh.points[i][0]).margin(6e-5));
}

TEST_CASE("the same body gives the same bytes") {
  const StrutBody body = cubic_body(5);
  CHECK(write_3mf(body, {}, {"a", "b", ""}) == write_3mf(body, {}, {"a", "b", ""}));
  CHECK(write_3mf(body, {}, {"a", "b", ""}) != write_3mf(body, {}, {"a", "c", ""}));
}

TEST_CASE("what lib3mf would refuse, or read as something else, is refused before it is written") {
  StrutBody body = four_struts();
  CHECK_THROWS_WITH(write_3mf(StrutBody{}, {}, {}), "3MF: the lattice has no strut");
  body.struts[2].to = 9;
  CHECK_THROWS_WITH(write_3mf(body, {}, {}),
                    "3MF: strut 2 runs from node 0 to node 9; expected two different ones of 5");
  body = four_struts();
  body.struts[1].to = 0;
  CHECK_THROWS_WITH(write_3mf(body, {}, {}),
                    "3MF: strut 1 runs from node 0 to node 0; expected two different ones of 5");
  body = four_struts();
  body.struts[3].from_radius = 0;
  CHECK_THROWS_WITH(write_3mf(body, {}, {}), "3MF: strut 3 has a radius of 0 mm; the file holds 0.0001 mm and more");
  body = four_struts();
  body.nodes[1] = {1e-7, 0, 0};
  CHECK_THROWS_WITH(write_3mf(body, {}, {}),
                    "3MF: strut 0 is 0.0001 mm long; the file holds 0.001 mm and more. Join its two nodes.");
  body = four_struts();
  body.nodes[2][1] = std::numeric_limits<double>::infinity();
  CHECK_THROWS_WITH(write_3mf(body, {}, {}), "3MF: a point has a coordinate that is not finite");
  CHECK_THROWS_WITH(write_3mf(TriangleMesh{}, {}), "3MF: the mesh has no triangle");
}
