#pragma once
#include "crushwright/surface.hpp"

#include <filesystem>

namespace crushwright {

/// Reads a closed surface from an STL, PLY, OFF or OBJ file, told by its extension; polygons become triangles, equal
/// points become one. Lengths stay in the file's own units.
/// @throws InputError that names the file, the fault, its place and what to do: another extension, no such file, a
///         file that breaks off or is not of its kind, no triangles, an open edge, an edge with more than two
///         triangles, triangles that face opposite ways, a surface turned inside out, or one that crosses itself.
TriangleMesh read_closed_mesh(const std::filesystem::path& file);

} // namespace crushwright
