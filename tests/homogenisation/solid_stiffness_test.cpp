#include "crushwright/catalogue.hpp"
#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "unit_cell/boundary_distance.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>

using namespace crushwright;
using Catch::Matchers::Contains;

namespace {

UnitCell from_catalogue(const std::string& id) {
  return Catalogue({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"}).cell(id);
}

} // namespace

TEST_CASE("iterations on a gyroid sheet grow by less than a quarter when the grid is refined twice") {
  const UnitCell gyroid = from_catalogue("gyroid_sheet");
  const double wall = size_ratio(gyroid, 0.2);
  const SolidStiffness coarse = solid_stiffness(gyroid, wall, 0.3, SolidOptions{32, 1e-6});
  const SolidStiffness fine = solid_stiffness(gyroid, wall, 0.3, SolidOptions{64, 1e-6});
  CHECK(fine.iterations < 1.25 * coarse.iterations);
  CHECK(fine.residual <= 1e-6);
  CHECK(fine.relative_density == Approx(0.2).epsilon(2e-3));
  CHECK(fine.dropped_voxels == 0);
  CHECK(symmetry_error(fine.over_youngs_modulus, "cubic") < 1e-12);
}

TEST_CASE("a strut cell on voxels is as near its density as voxels equally near allow, and cubic") {
  const UnitCell octet = from_catalogue("octet");
  const double strut = size_ratio(octet, 0.2);
  const SolidStiffness stiffness = solid_stiffness(octet, strut, 0.3, SolidOptions{32, 1e-6});
  CHECK(symmetry_error(stiffness.over_youngs_modulus, "cubic") < 1e-12);
  CHECK(stiffness.voxels_across == Approx(32 * strut));

  std::vector<float> distances = boundary_distance(octet, strut, 32);
  std::sort(distances.begin(), distances.end());
  const auto wanted = static_cast<std::size_t>(std::llround(0.2 * static_cast<double>(distances.size())));
  const float nearest = distances[wanted];
  const auto below = std::lower_bound(distances.begin(), distances.end(), nearest - 1e-6F);
  const auto above = std::upper_bound(distances.begin(), distances.end(), nearest + 1e-6F);
  const double together = static_cast<double>(above - below) / static_cast<double>(distances.size());
  CHECK(std::abs(stiffness.relative_density - 0.2) <= 0.5 * together);
}

TEST_CASE("a honeycomb is as stiff along its axis as it weighs, and contracts there as the metal does") {
  const UnitCell honeycomb = from_catalogue("honeycomb_uniform_wall");
  const double middle = 0.5 * (honeycomb.size_ratio_range.low + honeycomb.size_ratio_range.high);
  const SolidStiffness stiffness = solid_stiffness(honeycomb, middle, 0.3, SolidOptions{32, 1e-9});
  const StiffnessMatrix& c = stiffness.over_youngs_modulus;
  CHECK(youngs_modulus(c, Eigen::Vector3d::UnitZ()) == Approx(stiffness.relative_density).epsilon(1e-7));
  CHECK(poissons_ratio(c, Eigen::Vector3d::UnitZ(), Eigen::Vector3d::UnitX()) == Approx(0.3).epsilon(1e-6));
  CHECK(youngs_modulus(c, Eigen::Vector3d::UnitX()) < 0.5 * stiffness.relative_density);
}

TEST_CASE("a grid too coarse to join the metal is refused with the voxels across") {
  const UnitCell gyroid = from_catalogue("gyroid_sheet");
  CHECK_THROWS_WITH(solid_stiffness(gyroid, gyroid.size_ratio_range.low, 0.3, SolidOptions{16, 1e-6}),
                    Contains("voxels along the edge") && Contains("Take a finer grid or a larger size."));
}

TEST_CASE("an odd grid and a tolerance out of range are refused") {
  const UnitCell gyroid = from_catalogue("gyroid_sheet");
  CHECK_THROWS_WITH(solid_stiffness(gyroid, 0.1, 0.3, SolidOptions{33, 1e-6}),
                    "voxels along the cell edge: 33; expected an even number from 8");
  CHECK_THROWS_AS(solid_stiffness(gyroid, 0.1, 0.3, SolidOptions{32, 0}), OutOfDomain);
}
