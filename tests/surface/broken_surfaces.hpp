#pragma once
#include "crushwright/surface.hpp"

#include <string>

/// The good surfaces in the forms of files, and what goes wrong with them on the way.
namespace crushwright::made_surfaces {

// Text forms, with every digit of the coordinates.
std::string stl_text(const TriangleMesh& mesh);
std::string off_text(const TriangleMesh& mesh);
std::string obj_text(const TriangleMesh& mesh);
std::string ply_text(const TriangleMesh& mesh);
/// Binary, highest byte first.
std::string big_endian_ply(const TriangleMesh& mesh);
/// With corners counted backwards from the last point.
std::string obj_text_counted_backwards(const TriangleMesh& mesh);

/// Without one triangle.
TriangleMesh with_hole(TriangleMesh mesh, std::size_t triangle);
TriangleMesh with_flipped_face(TriangleMesh mesh, std::size_t triangle);
/// With one point pushed to another place, through the opposite wall.
TriangleMesh with_point_at(TriangleMesh mesh, std::size_t point, const std::array<double, 3>& place);

} // namespace crushwright::made_surfaces
