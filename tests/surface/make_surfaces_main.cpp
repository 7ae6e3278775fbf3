// The program behind scripts/make_surfaces: the made surfaces as files, lengths in millimetres.
#include "surface/broken_surfaces.hpp"
#include "surface/made_surfaces.hpp"
#include "surface/mesh_writer.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

namespace {

using namespace crushwright;
using namespace crushwright::made_surfaces;

constexpr double to_mm = 1000;

bool write(const std::filesystem::path& file, const TriangleMesh& mesh, const std::string& bytes) {
  std::ofstream stream(file, std::ios::binary);
  stream << bytes;
  stream.close();
  if (!stream) {
    fmt::print(stderr, "make_surfaces: {} cannot be written\n", file.string());
    return false;
  }
  const auto size = bounds_of(mesh).size();
  fmt::print("{:<18} {:>7} triangles {:>7.1f} x {:>5.1f} x {:>5.1f} mm {:>9.1f} cm3\n", file.filename().string(),
             mesh.triangles.size(), to_mm * size[0], to_mm * size[1], to_mm * size[2], 1e6 * volume_of(mesh));
  return true;
}

bool write_all(const std::filesystem::path& folder) {
  const std::string title = "invented for tests and examples, lengths in mm";
  const TriangleMesh cone_beside_outlet = tapered_cone({}, 104, 9), notched = notched_box({}),
                     knotted = knot({}, 400, 32), ball = sphere(0.1, 100), plain_cone = cone(0.1, 0.2, 100),
                     ring = torus(0.1, 0.03, 200);
  return write(folder / "tapered_cone.stl", cone_beside_outlet, write_stl(cone_beside_outlet, to_mm, title)) &&
         write(folder / "notched_box.obj", notched, obj_text(scaled(notched, to_mm))) &&
         write(folder / "torus_knot.ply", knotted, write_ply(knotted, to_mm, title)) &&
         write(folder / "sphere.off", ball, off_text(scaled(ball, to_mm))) &&
         write(folder / "cone_text.stl", plain_cone, stl_text(scaled(plain_cone, to_mm))) &&
         write(folder / "torus.ply", ring, write_ply(ring, to_mm, title));
}

} // namespace

int main(int count, char** arguments) {
  if (count != 2 || !std::filesystem::is_directory(arguments[1])) {
    fmt::print(stderr, "make_surfaces: one folder that is there was expected\n");
    return 2;
  }
  return write_all(arguments[1]) ? 0 : 2;
}
