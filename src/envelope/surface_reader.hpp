#pragma once
#include "crushwright/envelope.hpp"
#include "yaml_input/mapping.hpp"

#include <filesystem>
#include <string>

namespace crushwright {

/// A file named in a case, which stands beside the case.
std::filesystem::path beside(const Mapping& holder, const std::string& name);

/// The closed surface that a mapping's `file` and `unit` name [m], still in the file's own axes.
struct SurfaceInput {
  TriangleMesh mesh;
  GeometryFile file;
  std::vector<std::string> notes; ///< what was repaired or looks odd
};
/// @throws InputError at the line of `file` with what is wrong with the surface, at `unit` when it is not stated.
SurfaceInput read_surface(const Mapping& holder);

/// Reads `surface:` of a structure: the mesh turned into the structure's frame, cut into sections; no parts.
/// @throws InputError as read_surface, and for axes that do not go together.
Envelope read_surface_envelope(Mapping surface, int layer_count);

/// A mesh in a file's axes [m] in the structure's frame.
TriangleMesh placed(TriangleMesh mesh, const FileAxes& axes);

} // namespace crushwright
