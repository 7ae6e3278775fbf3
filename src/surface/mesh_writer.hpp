#pragma once
#include "crushwright/surface.hpp"

#include <string>

namespace crushwright {

// Whole files as bytes, so that a caller writes them all or nothing. Same mesh, same bytes.

/// Binary STL: 80 bytes, a count, 50 bytes a triangle, little-endian. Its numbers have single precision and it
/// carries no unit; a printer takes them as millimetres (common practice), so the caller scales.
/// @param scale  factor on every length, for instance 1000 from metres to millimetres
/// @param title  at most 80 letters for the head; it must not begin with "solid", by which readers tell the text form
/// @throws OutOfDomain when a scaled coordinate does not fit single precision, or the title is not usable.
std::string write_stl(const TriangleMesh& mesh, double scale, const std::string& title);

/// Binary PLY, little-endian, double precision, points shared between triangles.
/// @param scale    as write_stl
/// @param comment  one line for the head; may be empty
/// @throws OutOfDomain when the comment has more than one line, or a coordinate is not finite.
std::string write_ply(const TriangleMesh& mesh, double scale, const std::string& comment);

} // namespace crushwright
