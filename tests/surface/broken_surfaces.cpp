#include "surface/broken_surfaces.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>

namespace crushwright::made_surfaces {
namespace {

std::string row(const std::array<double, 3>& point) {
  return fmt::format("{} {} {}", point[0], point[1], point[2]);
}

template <class Bits>
void append_highest_first(std::string& bytes, Bits bits) {
  for (std::size_t i = sizeof bits; i-- > 0;)
    bytes += static_cast<char>(static_cast<unsigned char>(bits >> (8 * i)));
}

std::string ply_head(const TriangleMesh& mesh, const std::string& format) {
  return fmt::format("ply\nformat {} 1.0\ncomment invented\nelement vertex {}\nproperty double x\nproperty double y\n"
                     "property double z\nelement face {}\nproperty list uchar int vertex_indices\nend_header\n",
                     format, mesh.points.size(), mesh.triangles.size());
}

} // namespace

std::string stl_text(const TriangleMesh& mesh) {
  std::string text = "solid invented\n";
  for (const auto& triangle : mesh.triangles) {
    text += "facet normal 0 0 0\nouter loop\n";
    for (std::int32_t corner : triangle)
      text += "vertex " + row(mesh.points[std::size_t(corner)]) + "\n";
    text += "endloop\nendfacet\n";
  }
  return text + "endsolid invented\n";
}

std::string off_text(const TriangleMesh& mesh) {
  std::string text = fmt::format("OFF\n# invented\n{} {} 0\n", mesh.points.size(), mesh.triangles.size());
  for (const auto& point : mesh.points)
    text += row(point) + "\n";
  for (const auto& [a, b, c] : mesh.triangles)
    text += fmt::format("3 {} {} {}\n", a, b, c);
  return text;
}

std::string obj_text(const TriangleMesh& mesh) {
  std::string text = "# invented\no body\n";
  for (const auto& point : mesh.points)
    text += "v " + row(point) + "\n";
  for (const auto& [a, b, c] : mesh.triangles)
    text += fmt::format("f {} {} {}\n", a + 1, b + 1, c + 1);
  return text;
}

std::string obj_text_counted_backwards(const TriangleMesh& mesh) {
  std::string text;
  for (const auto& point : mesh.points)
    text += "v " + row(point) + "\n";
  const auto count = static_cast<std::int32_t>(mesh.points.size());
  for (const auto& [a, b, c] : mesh.triangles)
    text += fmt::format("f {}//1 {}//1 {}//1\n", a - count, b - count, c - count);
  return text;
}

std::string ply_text(const TriangleMesh& mesh) {
  std::string text = ply_head(mesh, "ascii");
  for (const auto& point : mesh.points)
    text += row(point) + "\n";
  for (const auto& [a, b, c] : mesh.triangles)
    text += fmt::format("3 {} {} {}\n", a, b, c);
  return text;
}

std::string big_endian_ply(const TriangleMesh& mesh) {
  std::string bytes = ply_head(mesh, "binary_big_endian");
  for (const auto& point : mesh.points)
    for (double coordinate : point)
      append_highest_first(bytes, std::bit_cast<std::uint64_t>(coordinate));
  for (const auto& triangle : mesh.triangles) {
    bytes += char{3};
    for (std::int32_t corner : triangle)
      append_highest_first(bytes, static_cast<std::uint32_t>(corner));
  }
  return bytes;
}

TriangleMesh with_hole(TriangleMesh mesh, std::size_t triangle) {
  mesh.triangles.erase(mesh.triangles.begin() + static_cast<std::ptrdiff_t>(triangle));
  return mesh;
}

TriangleMesh with_flipped_face(TriangleMesh mesh, std::size_t triangle) {
  std::swap(mesh.triangles[triangle][1], mesh.triangles[triangle][2]);
  return mesh;
}

TriangleMesh with_point_at(TriangleMesh mesh, std::size_t point, const std::array<double, 3>& place) {
  mesh.points[point] = place;
  return mesh;
}

} // namespace crushwright::made_surfaces
