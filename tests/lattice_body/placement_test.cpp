#include "crushwright/errors.hpp"
#include "crushwright/lattice_body.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace crushwright;
using Point = std::array<double, 3>;

namespace {

double dot(const Point& a, const Point& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/// A direction of the cell, in the structure's frame.
Point in_structure(const std::array<Point, 3>& axes, const Point& in_cell) {
  Point p{};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t k = 0; k < 3; ++k)
      p[k] += in_cell[i] * axes[i][k];
  return p;
}

} // namespace

TEST_CASE("The crush direction of the cell lies along x, and the axes stay right-handed") {
  const struct {
    const char* digits;
    Point direction;
  } rows[] = {{"100", {1, 0, 0}}, {"110", {1, 1, 0}}, {"111", {1, 1, 1}}, {"001", {0, 0, 1}}, {"210", {2, 1, 0}}};
  for (const auto& row : rows) {
    CAPTURE(row.digits);
    const auto axes = cell_axes(row.digits, 0.3);
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t k = 0; k < 3; ++k)
        CHECK(dot(axes[i], axes[k]) == Approx(i == k ? 1 : 0).margin(1e-15));
    const Point& a = axes[0];
    const Point& b = axes[1];
    const Point cross{a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
    CHECK(dot(cross, axes[2]) == Approx(1));
    const Point along = in_structure(axes, row.direction);
    CHECK(along[0] == Approx(std::sqrt(dot(row.direction, row.direction))));
    CHECK(std::hypot(along[1], along[2]) == Approx(0).margin(1e-15));
  }
}

TEST_CASE("Crushed along an edge the cell's axes are the structure's own") {
  const auto axes = cell_axes("100");
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t k = 0; k < 3; ++k)
      CHECK(axes[i][k] == (i == k ? 1 : 0));
}

TEST_CASE("Crushed along a face or body diagonal a mirror plane of cubic cells stands upright along the car") {
  // The planes {110} are mirror planes of every cell with cubic symmetry; their normal [-1 1 0] lies along y.
  for (const char* digits : {"110", "111"}) {
    const Point across = in_structure(cell_axes(digits), {-1, 1, 0});
    CHECK(across[1] == Approx(std::sqrt(2.0)));
  }
}

TEST_CASE("A turn about x carries y towards z") {
  const auto axes = cell_axes("100", 0.5 * std::numbers::pi);
  CHECK(axes[0][0] == Approx(1));
  CHECK(axes[1][2] == Approx(1));
  CHECK(axes[2][1] == Approx(-1));
}

TEST_CASE("Without an origin a corner of a cell lies on the axis at the attachment") {
  PlacementChoice choice;
  choice.cell_edge = 0.01;
  choice.length = 0.52;
  choice.middle = {0.02, -0.01};
  CHECK(place_lattice(choice).origin == Point{0.52, 0.02, -0.01});
  choice.origin = Point{0.1, 0.2, 0.3};
  CHECK(place_lattice(choice).origin == Point{0.1, 0.2, 0.3});
}

TEST_CASE("A placement that cannot be used is refused in words") {
  PlacementChoice choice;
  choice.length = 0.5;
  CHECK_THROWS_WITH(place_lattice(choice), "the cell edge is 0 m; expected more than 0");
  choice.cell_edge = 0.01;
  choice.crush_direction = "1x0";
  CHECK_THROWS_WITH(place_lattice(choice),
                    "crush direction '1x0': write three digits in cell axes, for instance 100 along an edge");
  choice.crush_direction = "000";
  CHECK_THROWS_AS(place_lattice(choice), OutOfDomain);
}
