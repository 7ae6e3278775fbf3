// The catalogue's computed laws, computed again.
#include "crushwright/homogenisation.hpp"
#include "homogenisation/computed_laws.hpp"
#include "homogenisation/voxel_extrapolation.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;

namespace {

const LawAssumptions assumptions;

/// The computed law of a direction that holds at a density; the test fails where there is none.
const PowerLaw& computed_law(const std::vector<PowerLaw>& laws, const std::string& direction, double density) {
  const auto found = std::find_if(laws.begin(), laws.end(), [&](const PowerLaw& law) {
    return law.origin.evidence == Evidence::computed && law.origin.direction == direction &&
           law.origin.fitted_relative_density.contains(density);
  });
  INFO("computed law along " << direction << " at " << density);
  REQUIRE(found != laws.end());
  return *found;
}

/// Entries keep a residual of three digits and coefficients of seven.
constexpr double printed_digits = 2e-4;

double residual_of(const PowerLaw& law) {
  return law.origin.computation->largest_residual + printed_digits;
}

double plateau_of_frame(const UnitCell& cell, double size, const Eigen::Vector3d& along) {
  const FrameCollapse collapse = frame_collapse(cell, size, along, assumptions.path_end);
  return std::min(collapse.mean_path_stress, collapse.lower);
}

void check_provenance(const UnitCell& cell, const PowerLaw& law) {
  INFO(law.origin.id);
  REQUIRE(law.origin.computation);
  const Computation& how = *law.origin.computation;
  const bool frame = cell.cell_class == CellClass::strut;
  CHECK(how.method == (frame ? "frame" : "voxels"));
  CHECK(!how.version.empty());
  CHECK(how.largest_residual >= 0);
  CHECK(how.largest_residual <= assumptions.refused_residual);
  if (frame) {
    CHECK(how.grid == 0);
    CHECK(how.spread == 0);
  } else {
    CHECK(how.grid >= 16);
    CHECK(how.spread > 0);
    CHECK(how.spread < 0.5);
  }
  CHECK(law.origin.density_basis == DensityBasis::true_);
  CHECK(!law.origin.source.text.empty());
}

int computed_laws_of(const UnitCell& cell, const std::vector<PowerLaw>& laws) {
  int count = 0;
  for (const PowerLaw& law : laws) {
    if (law.origin.evidence == Evidence::computed) {
      check_provenance(cell, law);
      ++count;
    }
  }
  return count;
}

} // namespace

TEST_CASE("every cell of struts, sheets, networks and plates carries computed laws that say how") {
  const Catalogue catalogue = own_catalogue();
  int cells = 0;
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class == CellClass::foam || cell.cell_class == CellClass::honeycomb) {
      continue;
    }
    INFO(id);
    ++cells;
    CHECK(computed_laws_of(cell, cell.elastic_modulus) >= static_cast<int>(law_directions(cell).size()));
    CHECK(computed_laws_of(cell, cell.plateau_stress) >= 1);
    computed_laws_of(cell, cell.first_peak_ratio);
  }
  CHECK(cells >= 19);
}

TEST_CASE("computed laws of strut cells give the frame's value at the densities that they were fitted to") {
  const Catalogue catalogue = own_catalogue();
  for (const char* id : {"octet", "kelvin"}) {
    const UnitCell& cell = catalogue.cell(id);
    const Range range = computed_law(cell.elastic_modulus, "100", 0.1).origin.fitted_relative_density;
    // The lowest and the middle of the points: the law misses them by its residual at the most.
    for (const double density : {range.low, std::sqrt(range.low * range.high)}) {
      const double size = size_ratio(cell, density);
      const FrameStiffness frame = frame_stiffness(cell, size, assumptions.poissons_ratio);
      for (const std::string& direction : law_directions(cell)) {
        INFO(id << " at " << density << " along " << direction);
        const Eigen::Vector3d along = direction_vector(direction);
        const PowerLaw& modulus = computed_law(cell.elastic_modulus, direction, density);
        CHECK(evaluate(modulus, density).value ==
              Approx(youngs_modulus(frame.over_youngs_modulus, along)).epsilon(residual_of(modulus)));
        const PowerLaw& plateau = computed_law(cell.plateau_stress, direction, density);
        CHECK(evaluate(plateau, density).value ==
              Approx(plateau_of_frame(cell, size, along)).epsilon(residual_of(plateau)));
      }
    }
  }
}

TEST_CASE("the gyroid sheet's computed laws give a coarser grid's values") {
  // Allowed: what the law says of itself (spread of its grids, residual of its fit) and what the coarser grid may be
  // off, 0.2 voxels over the voxels across the wall (docs/method/voxel.md).
  const Catalogue catalogue = own_catalogue();
  const UnitCell& cell = catalogue.cell("gyroid_sheet");
  const double density = 0.2;
  const double size = size_ratio(cell, density);
  const ExtrapolatedStiffness coarse = extrapolated_stiffness(cell, size, assumptions.poissons_ratio, 32, 48);
  for (const std::string& direction : law_directions(cell)) {
    INFO(direction);
    const PowerLaw& law = computed_law(cell.elastic_modulus, direction, density);
    const double tolerance = law.origin.computation->spread + residual_of(law) + coarse.spread;
    CAPTURE(tolerance);
    CHECK(tolerance < 0.25);
    CHECK(evaluate(law, density).value ==
          Approx(youngs_modulus(coarse.over_youngs_modulus, direction_vector(direction))).epsilon(tolerance));
  }
  const PowerLaw& law = computed_law(cell.plateau_stress, "100", density);
  const SolidCollapse crushed =
      solid_collapse(cell, size, assumptions.poissons_ratio, assumptions.yield_strain, HardeningCurve{{0.0}, {1.0}},
                     direction_vector("100"), assumptions.last_solid_strain, {32, 1e-6});
  const double greatest =
      crushed.greatest * std::pow(density / crushed.relative_density, 0.5 * (1 + coarse.density_exponent));
  const double tolerance = law.origin.computation->spread + residual_of(law) + voxel_layer / (32 * size);
  CAPTURE(tolerance);
  CHECK(tolerance < 0.25);
  CHECK(evaluate(law, density).value == Approx(greatest).epsilon(tolerance));
}
