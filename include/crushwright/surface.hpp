#pragma once
#include <array>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace crushwright {

/// A surface of triangles.
struct TriangleMesh {
  std::vector<std::array<double, 3>> points;          ///< shape = (number of points, 3)
  std::vector<std::array<std::int32_t, 3>> triangles; ///< places in `points`, counter-clockwise seen from outside;
                                                      ///< shape = (number of triangles, 3)
};

/// Of all triangles, in the square of the mesh's own lengths.
double area_of(const TriangleMesh& mesh);

/// Inside a closed mesh, in the cube of its own lengths; below zero when it is turned inside out.
double volume_of(const TriangleMesh& mesh);

/// The box along the axes that holds a mesh; both corners 0 for a mesh without points.
struct SurfaceBounds {
  std::array<double, 3> low{};
  std::array<double, 3> high{};
  std::array<double, 3> size() const { return {high[0] - low[0], high[1] - low[1], high[2] - low[2]}; }
};
SurfaceBounds bounds_of(const TriangleMesh& mesh);

/// One closed body read from a file, in metres, facing outward and not crossing itself.
struct SurfaceImport {
  TriangleMesh mesh;              ///< [m]
  std::size_t shells = 0;         ///< closed pieces of the surface: the body's outside, and its cavities
  double area = 0;                ///< of all shells [m^2]
  double volume = 0;              ///< inside, without the cavities [m^3], > 0
  SurfaceBounds bounds;           ///< [m]
  std::vector<std::string> notes; ///< repairs made and cavities found, one sentence each; places in the file's units
  std::vector<std::string> warnings; ///< what the user should look at: a size that another unit would make plausible
};

/// Reads one body from an STL, PLY, OFF or OBJ file, told by its extension; what is repaired and what is refused is
/// in docs/method/surface.md.
/// @param metres_per_unit  of the file's lengths, > 0: 0.001 for millimetres; never guessed
/// @throws InputError   that names the file, the line where there is one, the fault, its place in the file's units
///                      and what to do: file that breaks off or is not of its kind, number that is none, hole, edge
///                      with more than two triangles, surface that crosses itself or has one side only, bodies apart.
/// @throws OutOfDomain  when metres_per_unit is not positive.
SurfaceImport import_surface(const std::filesystem::path& file, double metres_per_unit);

} // namespace crushwright
