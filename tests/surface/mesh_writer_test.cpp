#include "surface/mesh_writer.hpp"

#include "crushwright/errors.hpp"
#include "surface/made_surfaces.hpp"
#include "surface/mesh_reader.hpp"
#include "surface/sample_meshes.hpp"

#include <CGAL/IO/PLY.h>
#include <CGAL/IO/STL.h>
#include <CGAL/Simple_cartesian.h>
#include <catch2/catch.hpp>

#include <limits>
#include <sstream>

using namespace crushwright;
using namespace crushwright::made_surfaces;

TEST_CASE("a general-purpose reader finds in the written files what was written") {
  const TriangleMesh mesh = tapered_cone({}, 12, 4);
  std::vector<CGAL::Simple_cartesian<double>::Point_3> points;
  std::vector<std::vector<std::size_t>> polygons;
  std::istringstream ply(write_ply(mesh, 1000, "invented"), std::ios::binary);
  REQUIRE(CGAL::IO::read_PLY(ply, points, polygons));
  REQUIRE(points.size() == mesh.points.size());
  REQUIRE(polygons.size() == mesh.triangles.size());
  for (std::size_t i = 0; i < points.size(); ++i)
    for (int axis = 0; axis < 3; ++axis)
      REQUIRE(points[i][axis] == 1000 * mesh.points[i][std::size_t(axis)]);
  for (std::size_t i = 0; i < polygons.size(); ++i)
    for (std::size_t corner = 0; corner < 3; ++corner)
      REQUIRE(polygons[i][corner] == std::size_t(mesh.triangles[i][corner]));

  points.clear();
  polygons.clear();
  std::istringstream stl(write_stl(mesh, 1000, "invented"), std::ios::binary);
  REQUIRE(CGAL::IO::read_STL(stl, points, polygons));
  REQUIRE(polygons.size() == mesh.triangles.size());
  for (std::size_t i = 0; i < polygons.size(); ++i)
    for (std::size_t corner = 0; corner < 3; ++corner)
      for (int axis = 0; axis < 3; ++axis)
        REQUIRE(points[polygons[i][corner]][axis] ==
                double(float(1000 * mesh.points[std::size_t(mesh.triangles[i][corner])][std::size_t(axis)])));
}

TEST_CASE("a written surface is read back closed, with its volume") {
  const sample_meshes::MeshFolder folder("writer");
  for (const TriangleMesh& mesh : {tapered_cone({}, 20, 6), notched_box({}), knot({}, 120, 12)}) {
    CHECK(volume_of(read_closed_mesh(folder.write("body.ply", write_ply(mesh, 1000, "")))) ==
          Approx(1e9 * volume_of(mesh)).epsilon(1e-12));
    CHECK(volume_of(read_closed_mesh(folder.write("body.stl", write_stl(mesh, 1000, "")))) ==
          Approx(1e9 * volume_of(mesh)).epsilon(1e-6)); // single precision
  }
}

TEST_CASE("an STL file has 84 bytes and 50 a triangle, the normals of its faces, and a head that is not 'solid'") {
  const std::string bytes = write_stl(box({0, 0, 0}, {1, 1, 1}), 1, "invented body, lengths in mm");
  REQUIRE(bytes.size() == 84 + 12 * 50);
  CHECK(bytes.substr(0, 29) == "invented body, lengths in mm ");
  CHECK(bytes.substr(80, 4) == std::string("\x0c\0\0\0", 4));
  // The first triangle lies in z = 0 or y = 0 or x = 0 with its normal along that axis: one part is -1, two are 0.
  int minus_ones = 0;
  for (std::size_t part = 0; part < 3; ++part)
    minus_ones += bytes.substr(84 + 4 * part, 4) == std::string("\0\0\x80\xbf", 4) ? 1 : 0;
  CHECK(minus_ones == 1);
  CHECK(bytes == write_stl(box({0, 0, 0}, {1, 1, 1}), 1, "invented body, lengths in mm"));
  CHECK_THROWS_WITH(write_stl({}, 1, "solid body"),
                    "'solid body' is no title for a binary STL file: expected at most "
                    "80 letters that do not begin with 'solid'");
  CHECK_THROWS_AS(write_stl({}, 1, std::string(81, 'x')), OutOfDomain);
}

TEST_CASE("a coordinate that is not finite, or too large for the form, is not written") {
  TriangleMesh mesh = box({0, 0, 0}, {1, 1, 1});
  mesh.points[0][0] = 1e39;
  CHECK_THROWS_WITH(write_stl(mesh, 1, ""), "the coordinate 1e+39 does not fit a number of single precision");
  mesh.points[0][0] = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(write_stl(mesh, 1, ""), OutOfDomain);
  CHECK_THROWS_WITH(write_ply(mesh, 1, ""), "a point of the mesh has a coordinate that is not finite");
  CHECK_THROWS_WITH(write_ply({}, 1, "two\nlines"), "the comment of a PLY file has one line");
}
