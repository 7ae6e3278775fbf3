#include "printability/wall_facets.hpp"

#include "printability/sample_subjects.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_subjects;

namespace {

double share(const std::string& id, const Vector& way, double angle = 45 * degree, double size_ratio = 0.1) {
  const FacetArea area = overhanging_area(*cell_facets(cell(id), size_ratio), scaled(way, 1 / norm(way)), angle);
  return area.overhanging / area.whole;
}

} // namespace

TEST_CASE("the middle surface of a gyroid sheet has the area of the gyroid") {
  // 3.0915 a² for the minimal surface (memory); its first harmonics come within a thousandth
  // (docs/method/unit_cell.md).
  const FacetArea area = overhanging_area(*cell_facets(cell("gyroid_sheet"), 0.05), {0, 0, 1}, 45 * degree);
  CHECK(area.whole == Approx(3.0915).epsilon(0.003));
}

TEST_CASE("a sheet of every orientation alike hangs over by the share of a sphere") {
  // Were normals spread evenly, the share with |cos| > cos θ would be 1 - cos θ. The gyroid comes near to it.
  CHECK(share("gyroid_sheet", {0, 0, 1}, 60 * degree) == Approx(1 - std::cos(60 * degree)).margin(0.12));
}

TEST_CASE("cubic cells of sheets hang over alike along their three edges and upside down") {
  for (const char* id : {"gyroid_sheet", "diamond_sheet", "primitive_sheet", "iwp_sheet"}) {
    INFO(id);
    const double upright = share(id, {0, 0, 1});
    CHECK(upright > 0);
    CHECK(share(id, {1, 0, 0}) == Approx(upright).margin(2e-3));
    CHECK(share(id, {0, 1, 0}) == Approx(upright).margin(2e-3));
    CHECK(share(id, {0, 0, -1}) == Approx(upright).margin(1e-12));
  }
}

TEST_CASE("of a network only what faces down hangs over, so at most about half") {
  const double flat = share("gyroid_skeletal", {0, 0, 1}, 89.99 * degree, 0.2);
  CHECK(flat > 0.4);
  CHECK(flat < 0.6);
}

TEST_CASE("one of three plates of a cubic box lies flat and is as wide as the cell") {
  const auto facets = cell_facets(cell("cubic_plate"), 0.05);
  CHECK(share("cubic_plate", {0, 0, 1}) == Approx(1.0 / 3).margin(1e-12));
  CHECK(widest_ceiling(*facets, {0, 0, 1}, 45 * degree) == Approx(1).margin(1e-12));
  // With a body diagonal upright every plate stands at 90° - acos(1/√3) = 35.26° from upright: 54.74° from flat.
  CHECK(share("cubic_plate", {1, 1, 1}) == 0);
  CHECK(share("cubic_plate", {1, 1, 1}, 55 * degree) == 1);
}

TEST_CASE("honeycomb walls all stand when the tubes are upright") {
  CHECK(share("honeycomb_uniform_wall", {0, 0, 1}) == 0);
  // Lying, with two of six sides flat: one wall of three.
  CHECK(share("honeycomb_uniform_wall", {1, 0, 0}) == Approx(1.0 / 3).margin(1e-12));
  // Lying on a corner: flat sides upright, the others at 30 degrees.
  CHECK(share("honeycomb_uniform_wall", {0, 1, 0}) == Approx(2.0 / 3).margin(1e-12));
  CHECK(share("honeycomb_uniform_wall", {0, 1, 0}, 29 * degree) == 0);
}

TEST_CASE("the ceiling of a primitive sheet is a dome with the width of its overhanging cap") {
  const auto facets = cell_facets(cell("primitive_sheet"), 0.06);
  const double ceiling = widest_ceiling(*facets, {0, 0, 1}, 45 * degree);
  CHECK(ceiling > 0.1);
  CHECK(ceiling < 1);
  CHECK(widest_ceiling(*facets, {0, 0, 1}, 30 * degree) < ceiling);
}
