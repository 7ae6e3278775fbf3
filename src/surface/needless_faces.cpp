#include "surface/mesh_edges.hpp"
#include "surface/mesh_repair.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Triangle = std::array<std::int32_t, 3>;

/// Height over the longest edge, under which a triangle is a line to rounding.
constexpr double least_height = 1e-12;

double square_between(const TriangleMesh& mesh, std::int32_t a, std::int32_t b) {
  double sum = 0;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double step = mesh.points[std::size_t(a)][axis] - mesh.points[std::size_t(b)][axis];
    sum += step * step;
  }
  return sum;
}

/// The corner opposite the longest edge.
std::size_t middle_corner(const TriangleMesh& mesh, const Triangle& triangle) {
  std::size_t middle = 0;
  double longest = -1;
  for (std::size_t i = 0; i < 3; ++i) {
    const double square = square_between(mesh, triangle[(i + 1) % 3], triangle[(i + 2) % 3]);
    if (square > longest) {
      longest = square;
      middle = i;
    }
  }
  return middle;
}

bool is_line(const TriangleMesh& mesh, const Triangle& triangle) {
  const std::size_t middle = middle_corner(mesh, triangle);
  const auto& c = mesh.points[std::size_t(triangle[middle])];
  const auto& a = mesh.points[std::size_t(triangle[(middle + 1) % 3])];
  const auto& b = mesh.points[std::size_t(triangle[(middle + 2) % 3])];
  std::array<double, 3> cross{};
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const std::size_t next = (axis + 1) % 3, last = (axis + 2) % 3;
    cross[axis] = (b[next] - a[next]) * (c[last] - a[last]) - (b[last] - a[last]) * (c[next] - a[next]);
  }
  const double longest = square_between(mesh, triangle[(middle + 1) % 3], triangle[(middle + 2) % 3]);
  const double size = std::sqrt(cross[0] * cross[0] + cross[1] * cross[1] + cross[2] * cross[2]);
  return size <= least_height * longest;
}

/// The smallest corner first, the way round kept.
Triangle from_smallest(Triangle triangle) {
  std::rotate(triangle.begin(), std::min_element(triangle.begin(), triangle.end()), triangle.end());
  return triangle;
}

std::size_t drop_doubled(TriangleMesh& mesh) {
  std::vector<std::pair<Triangle, std::size_t>> faces;
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i)
    faces.emplace_back(from_smallest(mesh.triangles[i]), i);
  std::sort(faces.begin(), faces.end());
  std::vector<char> needless(mesh.triangles.size(), 0);
  std::size_t dropped = 0;
  for (std::size_t i = 1; i < faces.size(); ++i)
    if (faces[i].first == faces[i - 1].first) {
      needless[faces[i].second] = 1;
      ++dropped;
    }
  if (dropped > 0) {
    std::vector<Triangle> kept;
    for (std::size_t i = 0; i < mesh.triangles.size(); ++i)
      if (needless[i] == 0)
        kept.push_back(mesh.triangles[i]);
    mesh.triangles = std::move(kept);
  }
  return dropped;
}

/// The other triangle of an edge; -1 when the edge has not just two.
std::int32_t neighbour_over(const std::vector<EdgeSide>& sides, std::int32_t own, std::int32_t a, std::int32_t b) {
  const MeshEdge edge{std::min(a, b), std::max(a, b)};
  const auto [begin, end] = std::equal_range(
      sides.begin(), sides.end(), EdgeSide{edge[0], edge[1], 0, false},
      [](const EdgeSide& x, const EdgeSide& y) { return x.low != y.low ? x.low < y.low : x.high < y.high; });
  if (end - begin != 2)
    return -1;
  return begin->triangle == own ? (begin + 1)->triangle : begin->triangle;
}

/// Splits the neighbour (a, b, d) of a line (a, b, c) at c into (a, c, d) and (c, b, d), whichever way it runs.
bool give_to_neighbour(TriangleMesh& mesh, const std::vector<EdgeSide>& sides, std::int32_t own,
                       const std::vector<char>& touched, std::int32_t& neighbour) {
  const Triangle line = mesh.triangles[std::size_t(own)];
  const std::size_t middle = middle_corner(mesh, line);
  const std::int32_t c = line[middle], a = line[(middle + 1) % 3], b = line[(middle + 2) % 3];
  neighbour = neighbour_over(sides, own, a, b);
  if (neighbour < 0 || touched[std::size_t(neighbour)] != 0)
    return false;
  Triangle other = mesh.triangles[std::size_t(neighbour)];
  if (std::find(other.begin(), other.end(), c) != other.end())
    return false; // lies back on the same three points
  Triangle first = other, second = other;
  std::replace(first.begin(), first.end(), b, c);
  std::replace(second.begin(), second.end(), a, c);
  mesh.triangles[std::size_t(own)] = first;
  mesh.triangles[std::size_t(neighbour)] = second;
  return true;
}

/// One round; each triangle is touched at most once.
std::size_t drop_lines(TriangleMesh& mesh) {
  std::vector<std::int32_t> lines;
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i)
    if (is_line(mesh, mesh.triangles[i]))
      lines.push_back(static_cast<std::int32_t>(i));
  if (lines.empty())
    return 0;
  const std::vector<EdgeSide> sides = edge_sides(mesh);
  std::vector<char> touched(mesh.triangles.size(), 0);
  std::size_t dropped = 0;
  for (std::int32_t own : lines) {
    std::int32_t neighbour = -1;
    if (touched[std::size_t(own)] == 0 && give_to_neighbour(mesh, sides, own, touched, neighbour)) {
      touched[std::size_t(own)] = touched[std::size_t(neighbour)] = 1;
      ++dropped;
    }
  }
  return dropped;
}

} // namespace

DroppedFaces drop_needless_faces(TriangleMesh& mesh) {
  DroppedFaces dropped;
  dropped.doubled = drop_doubled(mesh);
  // A row of lines along one edge takes as many rounds as it is long; they end when nothing more can be done.
  constexpr int most_rounds = 50;
  for (int round = 0; round < most_rounds; ++round) {
    const std::size_t fewer = drop_lines(mesh);
    dropped.without_area += fewer;
    if (fewer == 0)
      break;
  }
  return dropped;
}

} // namespace crushwright
