#include "printability/void_passage.hpp"

#include "printability/sample_subjects.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using sample_subjects::cell;
using sample_subjects::struts_of;

namespace {

/// Diameter of the ball that passes the cell without thickness [cell edges].
double window(const UnitCell& unit_cell, double size_ratio = 1e-9, std::size_t nodes = 24) {
  return 2 * void_passage(unit_cell, size_ratio, nodes).radius;
}

} // namespace

TEST_CASE("a ball as wide as the window between its struts passes a simple cubic cell") {
  // Window: a square of side a between struts of diameter d; closed form a - d.
  CHECK(window(cell("simple_cubic"), 0.1) == Approx(1 - 0.1).margin(1e-9));
  CHECK(window(cell("simple_cubic"), 0.2) == Approx(1 - 0.2).margin(1e-9));
}

TEST_CASE("the tightest place of the BCC void lies between two centres and an edge") {
  // (1/2, y, 0) has the squared distance 1/6 - y/3 + 2 y²/3 from the diagonal through the origin, least 1/8 at y =
  // 1/4.
  CHECK(window(cell("bcc")) == Approx(1 / std::sqrt(2.0)).margin(1e-9));
}

TEST_CASE("a ball passes an octet through its triangles") {
  // Equilateral, side a/√2: the inscribed circle has the radius side / (2 √3).
  CHECK(window(cell("octet")) == Approx(1 / std::sqrt(6.0)).margin(1e-9));
}

TEST_CASE("a ball passes a Kelvin cell through its hexagons") {
  // Regular hexagon of side a √2/4: the inscribed circle has the radius side √3/2.
  CHECK(window(cell("kelvin")) == Approx(std::sqrt(6.0) / 4).margin(1e-9));
}

TEST_CASE("a ball passes the primitive sheet through its necks") {
  // On the neck's own plane cos y + cos z = 1; nearest to the axis at y = z = 1/6 of the edge. The plane is one of
  // mirror symmetry, so the nearest point of the surface lies in it.
  CHECK(window(cell("primitive_sheet"), 0.06) == Approx(std::sqrt(2.0) / 3 - 0.06).margin(1e-6));
}

TEST_CASE("a finer grid finds no other window") {
  for (const char* id : {"bcc", "bccz", "cuboctahedron", "diamond", "fcc_all_faces", "kelvin", "octet",
                         "rhombic_dodecahedron", "simple_cubic"}) {
    INFO(id);
    CHECK(window(cell(id), 1e-9, 48) == Approx(window(cell(id))).margin(1e-9));
  }
}

TEST_CASE("closed boxes of plates let no powder out") {
  CHECK(void_passage(cell("cubic_plate"), 0.05).closed);
  CHECK(void_passage(cell("cubic_octet_plate"), 0.05).closed);
}

TEST_CASE("a box of plates with one pair of sides left open lets powder out along it") {
  UnitCell open = cell("cubic_plate");
  open.plates.pop_back(); // the lid across z
  const VoidPassage passage = void_passage(open, 0.1);
  CHECK_FALSE(passage.closed);
  CHECK(2 * passage.radius == Approx(1 - 0.1).margin(1e-9));
}

TEST_CASE("struts as thick as their window close it") {
  CHECK(void_passage(struts_of({{{0, 0, 0}, {0.5, 0, 0}}, {{0.5, 0, 0}, {1, 0, 0}}}), 0.1).radius > 0.4);
  UnitCell thick = cell("octet");
  CHECK(void_passage(thick, 1 / std::sqrt(6.0) + 0.001).closed);
}

TEST_CASE("a pocket behind a narrow neck counts with its neck, though others pass beside it") {
  // Distances along a line of nodes that repeats: a wide way on everywhere at 0.3, and across it, behind a neck at
  // 0.1, a pocket of 0.4.
  constexpr std::size_t n = 16;
  std::vector<double> distance(n * n * n, 0);
  const auto at = [&](std::size_t x, std::size_t y, std::size_t z) -> double& {
    return distance[(z * n + y) * n + x];
  };
  for (std::size_t x = 0; x < n; ++x)
    at(x, 0, 0) = 0.3;
  at(4, 2, 0) = 0.1;
  at(4, 1, 0) = 0.2;
  at(4, 3, 0) = 0.4;
  CHECK(void_passage(distance, n).radius == Approx(0.1));
  CHECK_FALSE(void_passage(distance, n).closed);
  at(4, 2, 0) = 0;
  CHECK(void_passage(distance, n).closed);
  at(4, 3, 0) = 0;
  CHECK(void_passage(distance, n).radius == Approx(0.3));
}

TEST_CASE("a thicker network or sheet leaves a narrower way, and one labyrinth of a gyroid is like the other") {
  double before = 1;
  for (const double neck : {0.06, 0.15, 0.25}) {
    const VoidPassage passage = void_passage(cell("gyroid_skeletal"), neck);
    CHECK_FALSE(passage.closed);
    CHECK(passage.radius < before);
    before = passage.radius;
  }
  CHECK(void_passage(cell("gyroid_sheet"), 0.1).radius ==
        Approx(void_passage(cell("gyroid_sheet"), 0.05).radius - 0.025).margin(1e-9));
}
