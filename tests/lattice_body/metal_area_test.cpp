#include "lattice_body/metal_area.hpp"

#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace crushwright;

TEST_CASE("the metal's area has its closed forms") {
  const Catalogue catalogue = own_catalogue();
  const double pi = std::numbers::pi;
  // Three bars at right angles: the slope of 3π(r/a)² - 8√2(r/a)³ by r/a; derived.
  const double r = 0.1;
  CHECK(*metal_area(catalogue.cell("simple_cubic"), 2 * r) ==
        Approx(6 * pi * r - 24 * std::numbers::sqrt2 * r * r).epsilon(2e-3));
  // A sheet has its middle surface twice, less what its Gaussian curvature takes: 2A + πχτ², χ = -8 for the gyroid.
  CHECK(*metal_area(catalogue.cell("gyroid_sheet"), 0.06) == Approx(2 * 3.0916 - pi * 8 * 0.06 * 0.06).epsilon(2e-3));
  // Plates in the cube's faces leave an empty cube of edge 1 - τ.
  CHECK(*metal_area(catalogue.cell("cubic_plate"), 0.1) == Approx(6 * 0.9 * 0.9).epsilon(1e-2));
  // Walls of one thickness t leave prisms of a hexagon S - t across flats: perimeter 2√3(S - t), two to a rectangle
  // of √3 × 3 sides l, S = √3 l.
  const double open = std::sqrt(3.0) - 0.12;
  CHECK(*metal_area(catalogue.cell("honeycomb_uniform_wall"), 0.12) ==
        Approx(2 * 2 * std::sqrt(3.0) * open / (3 * std::sqrt(3.0))).epsilon(1e-2));
}

TEST_CASE("a foam has no area of its own") {
  CHECK(!metal_area(own_catalogue().cell("metal_foam_closed"), 0));
}
