#include "review_pack/soft_normals.hpp"

#include "review_pack/cell_view.hpp"

#include <cmath>

#include <tbb/parallel_for.h>

namespace crushwright {

namespace {

constexpr double least_cosine = 0.8192; // of 35 degrees

/// Across a triangle, twice its area long.
ViewVector across(const TriangleMesh& mesh, std::size_t triangle) {
  const auto point = [&](std::size_t k) {
    return mesh.points[static_cast<std::size_t>(mesh.triangles[triangle][k])];
  };
  const ViewVector a = point(0), b = point(1), c = point(2);
  const ViewVector u = {b[0] - a[0], b[1] - a[1], b[2] - a[2]}, v = {c[0] - a[0], c[1] - a[1], c[2] - a[2]};
  return {u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]};
}

std::array<float, 3> unit_of(const ViewVector& v) {
  const double length = std::sqrt(dot(v, v));
  if (!(length > 0)) {
    return {};
  }
  return {static_cast<float>(v[0] / length), static_cast<float>(v[1] / length), static_cast<float>(v[2] / length)};
}

/// Places of the triangles about each point, one list after another.
struct Fans {
  std::vector<std::size_t> starts;
  std::vector<std::size_t> triangles;

  explicit Fans(const TriangleMesh& mesh) : starts(mesh.points.size() + 1), triangles(3 * mesh.triangles.size()) {
    for (const auto& triangle : mesh.triangles) {
      for (const std::int32_t point : triangle) {
        ++starts[static_cast<std::size_t>(point) + 1];
      }
    }
    for (std::size_t i = 1; i < starts.size(); ++i) {
      starts[i] += starts[i - 1];
    }
    std::vector<std::size_t> next(starts.begin(), starts.end() - 1);
    for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
      for (const std::int32_t point : mesh.triangles[i]) {
        triangles[next[static_cast<std::size_t>(point)]++] = i;
      }
    }
  }
};

} // namespace

SoftNormals::SoftNormals(const TriangleMesh& mesh) : normals_(3 * mesh.triangles.size()) {
  const Fans fans(mesh);
  std::vector<ViewVector> normals(mesh.triangles.size());
  tbb::parallel_for(std::size_t{0}, normals.size(), [&](std::size_t i) { normals[i] = across(mesh, i); });
  tbb::parallel_for(std::size_t{0}, normals.size(), [&](std::size_t i) {
    const double own = std::sqrt(dot(normals[i], normals[i]));
    for (std::size_t k = 0; k < 3; ++k) {
      const std::size_t point = static_cast<std::size_t>(mesh.triangles[i][k]);
      ViewVector sum{};
      for (std::size_t f = fans.starts[point]; f < fans.starts[point + 1]; ++f) {
        const ViewVector& other = normals[fans.triangles[f]];
        if (dot(other, normals[i]) > least_cosine * own * std::sqrt(dot(other, other))) {
          sum = {sum[0] + other[0], sum[1] + other[1], sum[2] + other[2]};
        }
      }
      normals_[3 * i + k] = unit_of(sum);
    }
  });
}

} // namespace crushwright
