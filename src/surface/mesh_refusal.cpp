#include "surface/mesh_refusal.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace crushwright {

void refuse_mesh(const std::filesystem::path& file, const std::string& what, const std::string& what_to_do) {
  throw InputError(fmt::format("{}: {}\n   {}", file.string(), what, what_to_do));
}

void refuse_empty(const std::filesystem::path& file) {
  refuse_mesh(file, "the file holds no triangles", "Export the surface again, as triangles.");
}

void refuse_crowded(const std::filesystem::path& file, const TriangleMesh& mesh, const std::vector<MeshEdge>& edges) {
  refuse_mesh(file,
              fmt::format("the surface has {} edges with more than two triangles; the first near {}", edges.size(),
                          shown_place(middle_of(mesh, edges.front()))),
              "Unite overlapping parts into one body and export again.");
}

void refuse_crossing(const std::filesystem::path& file, const Crossing& crossing) {
  refuse_mesh(file,
              fmt::format("the surface crosses itself in {} pairs of triangles; the first near {}", crossing.pairs,
                          shown_place(crossing.place)),
              "Unite overlapping parts into one body and export again.");
}

std::string shown_place(const std::array<double, 3>& place) {
  // A coordinate that is 0 but for rounding would print as -3.6e-15.
  const double largest = std::max({std::abs(place[0]), std::abs(place[1]), std::abs(place[2])});
  const auto clear = [&](double value) { return std::abs(value) <= 1e-12 * largest ? 0.0 : value; };
  return fmt::format("({:.6g}, {:.6g}, {:.6g})", clear(place[0]), clear(place[1]), clear(place[2]));
}

} // namespace crushwright
