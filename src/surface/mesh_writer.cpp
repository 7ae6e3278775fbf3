#include "surface/mesh_writer.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>

#include <bit>
#include <cmath>
#include <limits>

namespace crushwright {
namespace {

/// The bytes of a number, lowest first, on any machine.
template <class Bits>
void append(std::string& bytes, Bits bits) {
  for (std::size_t i = 0; i < sizeof bits; ++i)
    bytes += static_cast<char>(static_cast<unsigned char>(bits >> (8 * i)));
}

void append_single(std::string& bytes, double value) {
  if (!(std::abs(value) <= static_cast<double>(std::numeric_limits<float>::max())))
    throw OutOfDomain(fmt::format("the coordinate {} does not fit a number of single precision", value));
  append(bytes, std::bit_cast<std::uint32_t>(static_cast<float>(value)));
}

void append_double(std::string& bytes, double value) {
  if (!std::isfinite(value))
    throw OutOfDomain("a point of the mesh has a coordinate that is not finite");
  append(bytes, std::bit_cast<std::uint64_t>(value));
}

/// Unit normal of a triangle; 0 where it has no area, which readers then compute for themselves.
std::array<double, 3> normal_of(const TriangleMesh& mesh, const std::array<std::int32_t, 3>& triangle) {
  const auto& a = mesh.points[std::size_t(triangle[0])];
  const auto& b = mesh.points[std::size_t(triangle[1])];
  const auto& c = mesh.points[std::size_t(triangle[2])];
  std::array<double, 3> normal{};
  double square = 0;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const std::size_t next = (axis + 1) % 3, last = (axis + 2) % 3;
    normal[axis] = (b[next] - a[next]) * (c[last] - a[last]) - (b[last] - a[last]) * (c[next] - a[next]);
    square += normal[axis] * normal[axis];
  }
  for (double& part : normal)
    part = square > 0 ? part / std::sqrt(square) : 0.0;
  return normal;
}

} // namespace

std::string write_stl(const TriangleMesh& mesh, double scale, const std::string& title) {
  constexpr std::size_t head = 80;
  if (title.size() > head || title.rfind("solid", 0) == 0)
    throw OutOfDomain(fmt::format("'{}' is no title for a binary STL file: expected at most 80 letters that do not "
                                  "begin with 'solid'",
                                  title));
  if (mesh.triangles.size() > std::numeric_limits<std::uint32_t>::max())
    throw OutOfDomain(fmt::format("an STL file cannot hold {} triangles", mesh.triangles.size()));
  std::string bytes = title;
  bytes.resize(head, ' ');
  bytes.reserve(head + 4 + 50 * mesh.triangles.size());
  append(bytes, static_cast<std::uint32_t>(mesh.triangles.size()));
  for (const auto& triangle : mesh.triangles) {
    for (double part : normal_of(mesh, triangle))
      append_single(bytes, part);
    for (std::int32_t corner : triangle)
      for (double coordinate : mesh.points[std::size_t(corner)])
        append_single(bytes, scale * coordinate);
    append(bytes, std::uint16_t{0});
  }
  return bytes;
}

std::string write_ply(const TriangleMesh& mesh, double scale, const std::string& comment) {
  if (comment.find_first_of("\r\n") != std::string::npos)
    throw OutOfDomain("the comment of a PLY file has one line");
  std::string bytes = "ply\nformat binary_little_endian 1.0\n";
  if (!comment.empty())
    bytes += "comment " + comment + "\n";
  bytes += fmt::format("element vertex {}\nproperty double x\nproperty double y\nproperty double z\n"
                       "element face {}\nproperty list uchar int vertex_indices\nend_header\n",
                       mesh.points.size(), mesh.triangles.size());
  bytes.reserve(bytes.size() + 24 * mesh.points.size() + 13 * mesh.triangles.size());
  for (const auto& point : mesh.points)
    for (double coordinate : point)
      append_double(bytes, scale * coordinate);
  for (const auto& triangle : mesh.triangles) {
    bytes += char{3};
    for (std::int32_t corner : triangle)
      append(bytes, static_cast<std::uint32_t>(corner));
  }
  return bytes;
}

} // namespace crushwright
