#include "surface/mesh_solid.hpp"

#include "crushwright/errors.hpp"
#include "surface/mesh_reader.hpp"
#include "surface/sample_meshes.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace crushwright;
using namespace crushwright::sample_meshes;

namespace {

/// In cell edges, through a file and back.
TriangleMesh meshed(const Surface& surface, double edge) {
  const MeshFolder folder("meshed");
  TriangleMesh mesh = read_closed_mesh(folder.write("mesh.off", off_text(surface)));
  for (auto& point : mesh.points)
    for (double& coordinate : point)
      coordinate /= edge;
  return mesh;
}

/// A ball of many flat faces about the middle of the cell.
Surface ball(double radius, int rings) {
  Surface surface;
  const int around = 2 * rings;
  for (int ring = 1; ring < rings; ++ring)
    for (int step = 0; step < around; ++step) {
      const double polar = M_PI * ring / rings, turn = 2 * M_PI * step / around;
      surface.points.push_back({0.5 + radius * std::sin(polar) * std::cos(turn),
                                0.5 + radius * std::sin(polar) * std::sin(turn), 0.5 + radius * std::cos(polar)});
    }
  const int north = static_cast<int>(surface.points.size()), south = north + 1;
  surface.points.push_back({0.5, 0.5, 0.5 + radius});
  surface.points.push_back({0.5, 0.5, 0.5 - radius});
  const auto at = [&](int ring, int step) { return (ring - 1) * around + step % around; };
  for (int step = 0; step < around; ++step) {
    surface.faces.push_back({north, at(1, step), at(1, step + 1)});
    surface.faces.push_back({south, at(rings - 1, step + 1), at(rings - 1, step)});
    for (int ring = 1; ring + 1 < rings; ++ring)
      surface.faces.push_back({at(ring, step), at(ring + 1, step), at(ring + 1, step + 1), at(ring, step + 1)});
  }
  return surface;
}

} // namespace

TEST_CASE("a block with a through-hole has exactly the volume left around the hole") {
  CHECK(volume_in_cell(meshed(channel_cell(), 10)) == Approx(0.75).epsilon(1e-14));
}

TEST_CASE("what sticks out of the cell does not count") {
  CHECK(volume_in_cell(meshed(block_with_channel(10, 5, 5, -2, 13), 10)) == Approx(0.75).epsilon(1e-13));
  // A ball about the middle, wider than the cell: the cube less nothing but its corners' share outside.
  const double radius = 0.6, cap = radius - 0.5;
  const double caps = 6 * M_PI * cap * cap * (radius - cap / 3); // caps of 0.1 do not meet
  const double expected = 4.0 / 3 * M_PI * std::pow(radius, 3) - caps;
  CHECK(volume_in_cell(meshed(ball(radius, 120), 1)) == Approx(expected).epsilon(1e-3));
}

TEST_CASE("the samples inside a mesh make up its volume") {
  const TriangleMesh mesh = meshed(ball(0.4, 60), 1);
  double metal = 0;
  for (std::uint8_t inside : inside_samples(mesh, {47, 53, 59})) // unlike, or the errors of all octants add up
    metal += inside;
  CHECK(metal / (47.0 * 53 * 59) == Approx(volume_in_cell(mesh)).epsilon(5e-3));
}

TEST_CASE("the distance to a meshed ball is that to the ball") {
  const double radius = 0.4;
  const MeshSolid solid(meshed(ball(radius, 80), 1));
  const std::array<int, 3> cells{20, 20, 20};
  int visited = 0, inside = 0;
  for (int layer = 0; layer < 20; ++layer)
    solid.visit_layer(cells, 0.1, layer, [&](std::size_t index, double distance) {
      const double x = (double(index % 20) + 0.5) / 20 - 0.5, y = (double(index / 20 % 20) + 0.5) / 20 - 0.5,
                   z = (double(index / 400) + 0.5) / 20 - 0.5;
      const double exact = std::sqrt(x * x + y * y + z * z) - radius;
      ++visited;
      inside += distance < 0 ? 1 : 0;
      // Flat faces of 4.5 degrees lie up to 3e-4 inside the ball.
      CHECK(distance == Approx(std::max(exact, -0.1)).margin(7e-4));
    });
  CHECK(inside > 2000);
  CHECK(visited > inside + 500);
}

TEST_CASE("a cut in the cell's face is no boundary: the metal goes on in the next cell") {
  const MeshSolid solid(meshed(channel_cell(), 10));
  std::vector<double> field(20 * 20 * 20, 1);
  for (int layer = 0; layer < 20; ++layer)
    solid.visit_layer({20, 20, 20}, 0.1, layer, [&](std::size_t index, double distance) { field[index] = distance; });
  CHECK(field[0] == -0.1);                     // in the corner of the cell, far from the channel
  CHECK(field[20 * 10 + 4] == Approx(-0.025)); // beside the channel, in the lowest layer
  CHECK(field[20 * 10 + 5] == Approx(0.025));  // in the channel
}

TEST_CASE("a wall beyond the cell's face counts as near") {
  // The block moved aside, so that it fills x from 0.22 on and sticks out: what lies in the cell repeats, and the
  // block's own end at x = 0.22 is a wall; beyond x = 0 stands the copy's channel wall at 0.97 - 1.
  TriangleMesh moved = meshed(channel_cell(), 10);
  for (auto& point : moved.points)
    point[0] += 0.22;
  const MeshSolid aside(moved);
  double at_face = 1;
  aside.visit_layer({20, 20, 20}, 0.1, 3, [&](std::size_t index, double distance) {
    if (index % 400 == 20 * 10)
      at_face = distance;
  });
  CHECK(at_face == Approx(0.055));
}

TEST_CASE("a mesh that is not one cell is refused with its numbers") {
  CHECK_NOTHROW(require_one_cell(meshed(channel_cell(), 10), 10));
  CHECK_NOTHROW(require_one_cell(meshed(block_with_channel(10, 5, 5, -1, 12), 10), 10));
  CHECK_THROWS_WITH(
      require_one_cell(meshed(channel_cell(), 20), 20),
      "along x the mesh runs from 0 to 10, and the cell from 0 to 20: the mesh does not reach across it");
  CHECK_THROWS_WITH(require_one_cell(meshed(channel_cell(), 5), 5),
                    "along x the mesh runs from 0 to 10, and the cell from 0 to 5: the mesh sticks out of it by more "
                    "than half a cell");
  CHECK_THROWS_WITH(require_one_cell(meshed(block_with_channel(10, 5, 6.25, 0, 10), 10), 10),
                    "the faces z = 0 and z = 1 of the cell do not match: 18.8 % of their metal has none opposite, so "
                    "copies of the cell do not join there");
}
