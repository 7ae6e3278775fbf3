#include "surface/imported.hpp"

using namespace crushwright;
using namespace crushwright::imported;

TEST_CASE("every kind of file gives the same body") {
  for (const TriangleMesh& mesh : {cone_in_mm(), notched_box_in_mm(), knot_in_mm()}) {
    const double volume = volume_of(mesh) * 1e-9, area = area_of(mesh) * 1e-6;
    for (const auto& [name, bytes] : {std::pair{"text.stl", stl_text(mesh)},
                                      {"text.off", off_text(mesh)},
                                      {"text.obj", obj_text(mesh)},
                                      {"back.obj", obj_text_counted_backwards(mesh)},
                                      {"text.ply", ply_text(mesh)},
                                      {"big.ply", big_endian_ply(mesh)},
                                      {"little.ply", write_ply(mesh, 1, "invented")}}) {
      const SurfaceImport read = import_bytes(name, bytes);
      CHECK(read.mesh.points.size() == mesh.points.size());
      CHECK(read.mesh.triangles.size() == mesh.triangles.size());
      CHECK(read.volume == Approx(volume).epsilon(1e-12));
      CHECK(read.area == Approx(area).epsilon(1e-12));
      CHECK(read.shells == 1);
      CHECK(read.notes.empty());
      CHECK(read.warnings.empty());
    }
    // Single precision: 6e-8 of the farthest coordinate.
    const SurfaceImport binary = import_bytes("binary.stl", write_stl(mesh, 1, "invented"));
    CHECK(binary.volume == Approx(volume).epsilon(1e-6));
    CHECK(binary.area == Approx(area).epsilon(1e-6));
  }
}

TEST_CASE("quads, colours, comments and polygons that are not convex are read") {
  const std::string quads = "# invented\nmtllib none.mtl\nv 0 0 0\nv 40 0 0\nv 40 30 0 1 0 0\nv 0 30 0\nv 0 0 20\n"
                            "v 40 0 20\nv 40 30 20\nv 0 30 20\nvn 0 0 1\nvt 0 0\ng a b\ns off\n"
                            "f 4/1/1 3/1/1 2/1/1 1/1/1\nf 5//1 6//1 7//1 8//1\nf 1 2 6 5\nf 2 3 7 6\n"
                            "f 3 4 \\\n 8 7\nf -8 -4 -1 -5\n";
  const SurfaceImport cuboid = import_bytes("quads.obj", quads);
  CHECK(cuboid.volume == Approx(40 * 30 * 20 * 1e-9));
  CHECK(cuboid.mesh.triangles.size() == 12);

  // The six-cornered side of a notched box as one polygon, which a fan from its first corner would fold over itself.
  const std::string notched =
      "COFF\n12 8\n"
      "10 0 5 9 9 9\n20 0 5\n20 0 10 # a corner\n0 0 10\n0 0 0\n10 0 0\n"
      "10 8 5\n20 8 5\n20 8 10\n0 8 10\n0 8 0\n10 8 0\n"
      "6 1 2 3 4 5 0 255 0 0\n6 6 11 10 9 8 7\n"
      "4 0 6 7 1\n4 1 7 8 2\n4 2 8 9 3\n4 3 9 10 4\n# the last two\n4 4 10 11 5\n4 5 11 6 0\n";
  const SurfaceImport step = import_bytes("notched.off", notched);
  CHECK(step.volume == Approx(8 * (20 * 10 - 10 * 5) * 1e-9));
  CHECK(step.area == Approx((2 * 150 + 8 * 60) * 1e-6));
}

TEST_CASE("PLY properties of other types and other elements are passed over") {
  const std::string text = "ply\r\nformat ascii 1.0\r\ncomment invented\r\nelement material 1\r\n"
                           "property uchar shade\r\nproperty list uchar float parts\r\n"
                           "element vertex 4\r\nproperty float32 nx\r\nproperty short x\r\nproperty int16 y\r\n"
                           "property float z\r\nelement face 4\r\nproperty uchar red\r\n"
                           "property list uint8 uint32 vertex_index\r\nend_header\r\n"
                           "7 2 0.5 0.5\r\n0.1 0 0 0\r\n0.1 60 0 0\r\n0.1 0 60 0\r\n0.1 0 0 60\r\n"
                           "1 3 0 2 1\r\n1 3 0 1 3\r\n1 3 1 2 3\r\n1 3 2 0 3\r\n";
  CHECK(import_bytes("mixed.ply", text).volume == Approx(36000 * 1e-9));
}

TEST_CASE("a coordinate that is no finite number is refused where it stands") {
  const char* nan = "\0\0\xc0\x7f";
  const char* infinity = "\0\0\x80\x7f";
  CHECK(message_of("cone.stl", with_number(write_stl(cone_in_mm(), 1, ""), 4, nan)) ==
        "cone.stl: not read as STL: triangle 5 of 672 has the coordinate nan; a finite number was expected" + again);
  CHECK(message_of("box.stl", with_number(write_stl(notched_box_in_mm(), 1, ""), 19, infinity)) ==
        "box.stl: not read as STL: triangle 20 of 20 has the coordinate inf; a finite number was expected" + again);
  std::string text = obj_text(knot_in_mm());
  text.replace(text.find("v ") + 2, 1, "nan ");
  CHECK(message_of("knot.obj", text) == "knot.obj:3: not read as OBJ: 'nan' stands where a coordinate of a point, a "
                                        "finite number, was expected" +
                                            again);
  text = off_text(cone_in_mm());
  text.replace(text.find('\n', 20) + 1, 1, "twelve");
  CHECK(message_of("cone.off", text).rfind("cone.off:4: not read as OFF: 'twelve", 0) == 0);
  CHECK(message_of("comma.stl", "solid a\nfacet normal 0 0 1\nouter loop\nvertex 1,5 0 0\n") ==
        "comma.stl:4: not read as STL: '1,5' stands where a coordinate of a vertex, a finite number, was expected" +
            again);
}

TEST_CASE("a file that breaks off is refused") {
  for (const auto& [name, mesh] :
       {std::pair{"cone", cone_in_mm()}, {"box", notched_box_in_mm()}, {"knot", knot_in_mm()}}) {
    const auto half = [](const std::string& bytes) { return bytes.substr(0, bytes.size() / 2); };
    const std::string file = std::string(name) + ".stl", bytes = write_stl(mesh, 1, "");
    CHECK(message_of(file, half(bytes)) ==
          fmt::format("{}: not read as STL: the head announces {} triangles, which take {} bytes; the file has {}{}",
                      file, mesh.triangles.size(), bytes.size(), bytes.size() / 2, again));
    CHECK(message_of(file, bytes.substr(0, 50)) ==
          file +
              ": not read as STL: the file has 50 bytes, fewer than the 84 of a binary STL file's head, and does not "
              "begin with 'solid' as a text one does" +
              again);
    CHECK(message_of("half.stl", half(stl_text(mesh))).find(": not read as STL: ") != std::string::npos);
    CHECK(message_of("half.off", half(off_text(mesh))).find(": not read as OFF: ") != std::string::npos);
    CHECK(message_of("half.ply", half(ply_text(mesh))).find(": not read as PLY: ") != std::string::npos);
    CHECK(message_of("binary.ply", half(write_ply(mesh, 1, ""))).find(": not read as PLY: the file breaks off in ") !=
          std::string::npos);
    CHECK(message_of("empty.stl", "") == "empty.stl: the file is empty\n   Export the surface again.");
  }
  CHECK(message_of("solid.stl", "solid a\n") ==
        "solid.stl:2: not read as STL: the file breaks off; 'facet' or 'endsolid' was expected" + again);
  CHECK(message_of("bare.stl", "solid a\nendsolid a\n") ==
        "bare.stl: the file holds no triangles\n   Export the surface again, as triangles.");
  CHECK(message_of("words.obj", "no surface at all\n") ==
        "words.obj: the file holds no triangles\n   Export the surface again, as triangles.");
}

TEST_CASE("a head that announces four billion triangles is refused before room is made for them") {
  for (const TriangleMesh& mesh : {cone_in_mm(), notched_box_in_mm(), knot_in_mm()}) {
    std::string bytes = write_stl(mesh, 1, "");
    const std::size_t size = bytes.size();
    bytes.replace(80, 4, "\xff\xff\xff\xff");
    CHECK(message_of("huge.stl", bytes) ==
          fmt::format("huge.stl: not read as STL: the head announces 4294967295 triangles, which take 214748364834 "
                      "bytes; the file has {}{}",
                      size, again));
  }
  CHECK(message_of("huge.off", "OFF\n4000000000 4000000000 0\n0 0 0\n") ==
        "huge.off:4: not read as OFF: the file breaks off; a coordinate of a point, a finite number, was expected" +
            again);
  CHECK(message_of("huge.ply", "ply\nformat binary_little_endian 1.0\nelement vertex 4000000000\nproperty float x\n"
                               "property float y\nproperty float z\nend_header\n") ==
        "huge.ply: not read as PLY: the file breaks off in vertex 1 of 4000000000" + again);
}

TEST_CASE("a face that names a point that is not there is refused") {
  const std::string points = "v 0 0 0\nv 1 0 0\nv 0 1 0\n";
  CHECK(message_of("far.obj", points + "f 1 2 4\n") ==
        "far.obj:4: not read as OBJ: a face names point 4; there are 3" + again);
  CHECK(message_of("back.obj", points + "f -1 -2 -4\n") ==
        "back.obj:4: not read as OBJ: a face counts 4 points back; there are 3 so far" + again);
  CHECK(message_of("zero.obj", points + "f 0 1 2\n") ==
        "zero.obj:4: not read as OBJ: '0' stands where the number of a point, from 1 or below 0, was expected" +
            again);
  CHECK(message_of("two.obj", points + "f 1 2\n") ==
        "two.obj:4: not read as OBJ: a face has 2 corners; at least three were expected" + again);
  CHECK(message_of("far.off", "OFF\n3 1 0\n0 0 0\n1 0 0\n0 1 0\n3 0 1 3\n") ==
        "far.off:6: not read as OFF: a face names point 3, counted from 0; there are 3" + again);
}
