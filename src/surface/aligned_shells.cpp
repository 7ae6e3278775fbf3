#include "surface/mesh_edges.hpp"
#include "surface/mesh_repair.hpp"

#include <utility>

namespace crushwright {
namespace {

struct Neighbour {
  std::int32_t triangle = -1;
  bool agrees = true; ///< runs the other way along the edge that they share
};

std::vector<std::array<Neighbour, 3>> neighbours_of(const TriangleMesh& mesh) {
  std::vector<std::array<Neighbour, 3>> neighbours(mesh.triangles.size());
  const auto add = [&](const EdgeSide& own, const EdgeSide& other) {
    for (Neighbour& neighbour : neighbours[std::size_t(own.triangle)])
      if (neighbour.triangle < 0) {
        neighbour = {other.triangle, own.backward != other.backward};
        return;
      }
  };
  const std::vector<EdgeSide> sides = edge_sides(mesh);
  for (std::size_t i = 0; i + 1 < sides.size(); i += 2) {
    add(sides[i], sides[i + 1]);
    add(sides[i + 1], sides[i]);
  }
  return neighbours;
}

std::array<double, 3> middle_of_triangle(const TriangleMesh& mesh, std::size_t triangle) {
  std::array<double, 3> middle{};
  for (std::int32_t corner : mesh.triangles[triangle])
    for (std::size_t axis = 0; axis < 3; ++axis)
      middle[axis] += mesh.points[std::size_t(corner)][axis] / 3;
  return middle;
}

} // namespace

AlignedShells align_shells(TriangleMesh& mesh) {
  const auto neighbours = neighbours_of(mesh);
  constexpr std::size_t none = static_cast<std::size_t>(-1);
  AlignedShells shells;
  shells.shell_of.assign(mesh.triangles.size(), none);
  std::vector<char> turned(mesh.triangles.size(), 0);
  for (std::size_t start = 0; start < mesh.triangles.size(); ++start) {
    if (shells.shell_of[start] != none)
      continue;
    std::vector<std::size_t> shell{start};
    shells.shell_of[start] = shells.count;
    std::size_t turned_here = 0;
    for (std::size_t at = 0; at < shell.size(); ++at)
      for (const Neighbour& neighbour : neighbours[shell[at]]) {
        const auto other = static_cast<std::size_t>(neighbour.triangle);
        const char wanted = neighbour.agrees ? turned[shell[at]] : static_cast<char>(1 - turned[shell[at]]);
        if (shells.shell_of[other] == none) {
          shells.shell_of[other] = shells.count;
          turned[other] = wanted;
          turned_here += wanted != 0 ? 1 : 0;
          shell.push_back(other);
        } else if (turned[other] != wanted && !shells.one_sided) {
          shells.one_sided = middle_of_triangle(mesh, other);
        }
      }
    // The first triangle may be the one that faces the wrong way: most of them are right.
    const bool most_turned = 2 * turned_here > shell.size();
    for (std::size_t triangle : shell)
      if ((turned[triangle] != 0) != most_turned) {
        std::swap(mesh.triangles[triangle][1], mesh.triangles[triangle][2]);
        ++shells.turned;
      }
    ++shells.count;
  }
  return shells;
}

} // namespace crushwright
