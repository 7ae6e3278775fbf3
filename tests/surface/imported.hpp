#pragma once
#include "crushwright/errors.hpp"
#include "crushwright/surface.hpp"
#include "surface/broken_surfaces.hpp"
#include "surface/made_surfaces.hpp"
#include "surface/mesh_writer.hpp"
#include "surface/sample_meshes.hpp"

#include <catch2/catch.hpp>

/// What the tests of import_surface share.
namespace crushwright::imported {

using namespace made_surfaces;
using sample_meshes::MeshFolder;

constexpr double mm = 1e-3;
using Words = std::vector<std::string>;

inline TriangleMesh cone_in_mm() {
  return scaled(tapered_cone({}, 20, 4), 1000);
}
inline TriangleMesh notched_box_in_mm() {
  return scaled(notched_box({}), 1000);
}
inline TriangleMesh knot_in_mm() {
  return scaled(knot({}, 120, 12), 1000);
}

inline SurfaceImport import_bytes(const std::string& name, const std::string& bytes, double unit = mm) {
  const MeshFolder folder("import");
  return import_surface(folder.write(name, bytes), unit);
}

/// The message without the folder.
inline std::string message_of(const std::string& name, const std::string& bytes) {
  const MeshFolder folder("import_fault");
  try {
    import_surface(folder.write(name, bytes), mm);
  } catch (const InputError& error) {
    const std::string message = error.what();
    const std::string prefix = folder.path().string() + "/";
    REQUIRE(message.rfind(prefix, 0) == 0);
    return message.substr(prefix.size());
  }
  return "no fault was found";
}

inline const std::string close_it = "\n   Close the surface, so that it bounds a solid, and export again.";
inline const std::string unite = "\n   Unite overlapping parts into one body and export again.";
inline const std::string again =
    "\n   Export the surface again; the transfer may have been cut short, or the file is of another kind.";

inline std::string with_number(std::string stl, std::size_t triangle, const char* four_bytes) {
  return stl.replace(84 + 50 * triangle + 12, 4, std::string(four_bytes, 4));
}

} // namespace crushwright::imported
