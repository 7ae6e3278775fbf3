#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "homogenisation/hand_made_frames.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("bounds of every strut cell's collapse close, below the metal's share of the section") {
  const Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class != CellClass::strut) {
      continue;
    }
    INFO(id);
    for (const double density : {0.05, 0.15}) {
      for (const char* direction : {"100", "001", "111"}) {
        const FrameCollapse collapse = frame_collapse(cell, size_ratio(cell, density), direction_vector(direction));
        CHECK(collapse.lower > 0);
        CHECK(collapse.lower <= collapse.upper * (1 + 1e-9));
        CHECK(collapse.upper - collapse.lower < 0.01 * collapse.lower);
        CHECK(collapse.upper <= density);
        CHECK(collapse.cuts > 0);
        CHECK(collapse.path_strain.empty());
      }
    }
  }
}

TEST_CASE("a path begins near the collapse stress and ends where it was asked to") {
  const Catalogue catalogue = own_catalogue();
  const UnitCell& cell = catalogue.cell("bcc");
  const FrameCollapse collapse = frame_collapse(cell, size_ratio(cell, 0.1), {0, 0, 2}, 0.4);
  REQUIRE(collapse.path_strain.size() == collapse.path_stress.size());
  CHECK(collapse.path_strain.front() == 0);
  CHECK(collapse.path_strain.back() == Approx(0.4).epsilon(1e-12));
  CHECK(collapse.path_stress.front() == Approx(collapse.lower).epsilon(0.02));
  CHECK(collapse.mean_path_stress > 0.8 * collapse.lower);
  CHECK(collapse.mean_path_stress < 1.05 * collapse.lower);
}

TEST_CASE(
    "the yield surface in axial and lateral stress is convex, holds the origin and starts at pure compression") {
  const Catalogue catalogue = own_catalogue();
  for (const char* id : {"bcc", "octet", "bccz"}) {
    INFO(id);
    const UnitCell& cell = catalogue.cell(id);
    const double size = size_ratio(cell, 0.1);
    const std::vector<YieldPoint> surface = frame_yield_surface(cell, size, {0, 0, 1}, 24);
    REQUIRE(surface.size() == 24);
    CHECK(surface[0].lateral == Approx(0).margin(1e-15));
    CHECK(surface[0].axial == Approx(frame_collapse(cell, size, {0, 0, 1}).lower).epsilon(1e-9));
    for (std::size_t k = 0; k < surface.size(); ++k) {
      const YieldPoint& a = surface[k];
      const YieldPoint& b = surface[(k + 1) % 24];
      const YieldPoint& c = surface[(k + 2) % 24];
      const double turn =
          (b.axial - a.axial) * (c.lateral - b.lateral) - (b.lateral - a.lateral) * (c.axial - b.axial);
      const double size_of_turn =
          std::hypot(b.axial - a.axial, b.lateral - a.lateral) * std::hypot(c.axial - b.axial, c.lateral - b.lateral);
      // Points are lower bounds within 0.5 %: on a straight side they may dent by that much.
      const double dent = 0.005 * std::hypot(b.axial, b.lateral) *
                          (1 / std::hypot(b.axial - a.axial, b.lateral - a.lateral) +
                           1 / std::hypot(c.axial - b.axial, c.lateral - b.lateral));
      CHECK(turn > -dent * size_of_turn);
      CHECK(a.axial * b.lateral - a.lateral * b.axial > 0);
      // The section is as strong in tension as in compression.
      const YieldPoint& opposite = surface[(k + 12) % 24];
      CHECK(std::hypot(a.axial, a.lateral) == Approx(std::hypot(opposite.axial, opposite.lateral)).epsilon(0.006));
    }
  }
}

TEST_CASE("collapse of a frame refuses what it cannot do, with the value") {
  const Catalogue catalogue = own_catalogue();
  const UnitCell& cell = catalogue.cell("bcc");
  CHECK_THROWS_AS(frame_collapse(catalogue.cell("gyroid_sheet"), 0.1, {1, 0, 0}), OutOfDomain);
  CHECK_THROWS_WITH(frame_collapse(cell, 0.9, {1, 0, 0}), Catch::Contains("0.9"));
  CHECK_THROWS_AS(frame_collapse(cell, 0.1, {0, 0, 0}), OutOfDomain);
  CHECK_THROWS_WITH(frame_collapse(cell, 0.1, {1, 0, 0}, 0.7), Catch::Contains("0.7"));
  CHECK_THROWS_WITH(frame_yield_surface(cell, 0.1, {1, 0, 0}, 3), Catch::Contains("3"));
}

TEST_CASE("a path ends where thick struts have shrunk to nothing, and its mean is over what was reached") {
  UnitCell cell;
  cell.id = "braced";
  cell.cell_class = CellClass::strut;
  cell.size_ratio_range = {0.02, 0.4};
  cell.true_density_coefficients = {0, 6.799, -9}; // the sum of the bars less about what they share at the node
  cell.struts = {{{0, 0, 0}, {1, 0, 0}}, {{0, 0, 0}, {0, 1, 0}}, {{0, 0, 0}, {0, 0, 1}}, {{0, 0, 0}, {1, 0, 1}},
                 {{1, 0, 0}, {0, 0, 1}}, {{0, 0, 0}, {0, 1, 1}}, {{0, 1, 0}, {0, 0, 1}}};
  const FrameCollapse thick = frame_collapse(cell, 0.27, direction_vector("100"), 0.5);
  REQUIRE(thick.path_strain.size() > 2);
  CHECK(thick.path_strain.back() > 0.3);
  CHECK(thick.path_strain.back() <= 0.5);
  CHECK(thick.mean_path_stress > 0);
  const FrameCollapse thin = frame_collapse(cell, 0.1, direction_vector("100"), 0.5);
  CHECK(thin.path_strain.back() == Approx(0.5));
}
