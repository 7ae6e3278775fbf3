#include "homogenisation/voxel_extrapolation.hpp"

#include "crushwright/catalogue.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace crushwright;

TEST_CASE("a value that approaches its limit at the stated order is extrapolated exactly") {
  const auto on_grid = [](double n) { return 2 - 3 / (n * n); };
  const Extrapolated limit = extrapolated(on_grid(16), on_grid(24), 1.5, 2);
  CHECK(limit.value == Approx(2).epsilon(1e-14));
  CHECK(limit.spread == Approx(3.0 / (24 * 24)).epsilon(1e-12));
  CHECK(observed_order(on_grid(8), on_grid(16), on_grid(32), 2) == Approx(2).epsilon(1e-12));
}

TEST_CASE("values that do not settle have no order") {
  CHECK_THROWS_WITH(observed_order(1, 2, 4, 2),
                    "order of convergence: 1, 2, 4 do not approach a limit in one direction");
  CHECK_THROWS_AS(observed_order(1, 2, 1.5, 2), OutOfDomain);
  CHECK_THROWS_AS(extrapolated(1, 2, 1), OutOfDomain);
}

TEST_CASE("two grids that nearly agree still claim no more than voxels across a wall allow") {
  const UnitCell gyroid =
      Catalogue({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"}).cell("gyroid_sheet");
  const double wall = size_ratio(gyroid, 0.3);
  const ExtrapolatedStiffness limit = extrapolated_stiffness(gyroid, wall, 0.3, 24, 32);
  CHECK(limit.fine.grid == 32);
  CHECK(limit.density_exponent > 1);
  CHECK(limit.density_exponent < 2);
  CHECK(limit.spread == Approx(voxel_layer / (wall * 32)));
  const SolidStiffness finer = solid_stiffness(gyroid, wall, 0.3, SolidOptions{48, 1e-6});
  const double off =
      (limit.over_youngs_modulus - finer.over_youngs_modulus).norm() / finer.over_youngs_modulus.norm();
  CHECK(off < limit.spread);
}
