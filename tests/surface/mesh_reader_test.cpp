#include "surface/mesh_reader.hpp"

#include "crushwright/errors.hpp"
#include "surface/mesh_solid.hpp"
#include "surface/sample_meshes.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using namespace crushwright::sample_meshes;

namespace {

/// The message without the folder, which differs from machine to machine.
std::string message_of(const std::string& name, const std::string& bytes) {
  const MeshFolder folder("fault");
  try {
    read_closed_mesh(folder.write(name, bytes));
  } catch (const InputError& error) {
    const std::string message = error.what();
    const std::string prefix = folder.path().string() + "/";
    REQUIRE(message.rfind(prefix, 0) == 0);
    return message.substr(prefix.size());
  }
  return "";
}

double cubes_volume(const std::filesystem::path& file) {
  TriangleMesh mesh = read_closed_mesh(file);
  for (auto& point : mesh.points)
    for (double& coordinate : point)
      coordinate /= 10;
  return volume_in_cell(mesh);
}

} // namespace

TEST_CASE("one surface has one volume, whichever kind of file it comes in") {
  const MeshFolder folder("kinds");
  const Surface cell = channel_cell();
  CHECK(cubes_volume(folder.write("cell.off", off_text(cell))) == Approx(0.75).epsilon(1e-12));
  CHECK(cubes_volume(folder.write("cell.obj", obj_text(cell))) == Approx(0.75).epsilon(1e-12));
  CHECK(cubes_volume(folder.write("cell.ply", ply_text(cell))) == Approx(0.75).epsilon(1e-12));
  CHECK(cubes_volume(folder.write("cell.stl", stl_text(cell))) == Approx(0.75).epsilon(1e-12));
  CHECK(cubes_volume(folder.write("binary.STL", binary_stl(cell))) == Approx(0.75).epsilon(1e-6));
}

TEST_CASE("the triangles of an STL file share their corners") {
  const MeshFolder folder("shared");
  const TriangleMesh mesh = read_closed_mesh(folder.write("cell.stl", stl_text(channel_cell())));
  CHECK(mesh.points.size() == 16);
  CHECK(mesh.triangles.size() == 32);
}

TEST_CASE("a surface with a hole is refused with the place of the hole") {
  Surface open = channel_cell();
  open.faces.erase(open.faces.begin());
  CHECK(message_of("open.off", off_text(open)) ==
        "open.off: the surface has a hole: 4 edges have a triangle on one side only; the first near (5, 0, 0)\n"
        "   Close the surface, so that it bounds a solid, and export again.");
}

TEST_CASE("a face that looks the other way is refused") {
  Surface turned = channel_cell();
  std::reverse(turned.faces[0].begin(), turned.faces[0].end());
  CHECK(message_of("turned.obj", obj_text(turned)) ==
        "turned.obj: triangles face opposite ways across 4 edges; the first near (5, 0, 0)\n"
        "   Turn all triangles to face outward (unify the normals) and export again.");
}

TEST_CASE("a surface turned inside out is refused") {
  Surface inward = channel_cell();
  for (auto& face : inward.faces)
    std::reverse(face.begin(), face.end());
  CHECK(message_of("inward.off", off_text(inward)) ==
        "inward.off: the surface is turned inside out: it encloses a volume below zero\n"
        "   Turn all triangles to face outward (flip the normals) and export again.");
}

TEST_CASE("two bodies that run into one another are refused") {
  CHECK(message_of("crossing.ply", ply_text(together(box(0, 6), box(4.5, 10)))) ==
        "crossing.ply: the surface crosses itself in 12 pairs of triangles; the first near (4, 2, 6)\n"
        "   Unite overlapping parts into one body and export again.");
}

TEST_CASE("two bodies that share an edge are refused") {
  const Surface first = box(0, 5);
  Surface second = box(0, 5);
  for (auto& point : second.points) {
    point[0] += 5;
    point[1] += 5;
  }
  CHECK(message_of("touching.stl", stl_text(together(first, second))) ==
        "touching.stl: the surface has 1 edges with more than two triangles; the first near (5, 5, 2.5)\n"
        "   Unite overlapping parts into one body and export again.");
}

TEST_CASE("a file that breaks off is refused, whatever its kind") {
  const Surface cell = channel_cell();
  const auto half = [](const std::string& text) { return text.substr(0, text.size() / 2); };
  const auto expected = [](const std::string& name, const std::string& kind) {
    return fmt::format("{}: the file breaks off, or is not {} as its name says\n"
                       "   Export the surface again; the transfer may have been cut short.",
                       name, kind);
  };
  CHECK(message_of("half.off", half(off_text(cell))) == expected("half.off", "OFF"));
  CHECK(message_of("half.ply", half(ply_text(cell))) == expected("half.ply", "PLY"));
  CHECK(message_of("half.stl", half(stl_text(cell))) == expected("half.stl", "STL"));
  CHECK(message_of("binary.stl", half(binary_stl(cell))) == expected("binary.stl", "STL"));
  CHECK(message_of("text.off", "no surface at all\n") == expected("text.off", "OFF"));
}

TEST_CASE("an empty file, an unknown kind and a missing file are refused") {
  CHECK(message_of("empty.obj", "") == "empty.obj: the file is empty\n"
                                       "   Export the surface again.");
  CHECK(message_of("bare.off", "OFF\n0 0 0\n") == "bare.off: the file holds no triangles\n"
                                                  "   Export the surface again, as triangles.");
  CHECK(message_of("cell.txt", "0") == "cell.txt: '.txt' is no kind of surface that is read here\n"
                                       "   Export the surface as .stl, .ply, .off or .obj.");
  CHECK_THROWS_WITH(read_closed_mesh("nowhere/cell.stl"),
                    "nowhere/cell.stl: there is no such file\n"
                    "   Put the mesh beside the entry that names it, or correct its name.");
}
