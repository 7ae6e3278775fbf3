#include "crushwright/errors.hpp"
#include "homogenisation/computed_laws.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;

namespace {

const ComputedLaw* find_law(const ComputedLaws& laws, const std::string& id) {
  const auto found = std::find_if(laws.laws.begin(), laws.laws.end(),
                                  [&](const ComputedLaw& each) { return each.law.origin.id == id; });
  return found == laws.laws.end() ? nullptr : &*found;
}

ComputedLawOptions sparse_range() {
  ComputedLawOptions options;
  options.relative_density = {0.02, 0.06};
  options.version = "0.1.0";
  return options;
}

} // namespace

TEST_CASE("the laws of a strut cell hold its frames at every computed density") {
  Catalogue catalogue = own_catalogue();
  const UnitCell& cell = catalogue.cell("octet");
  const ComputedLaws computed = computed_laws(cell, sparse_range());
  CHECK(computed.notes.empty());
  for (const char* id : {"frame-stiffness-100", "frame-stiffness-110", "frame-stiffness-111", "frame-collapse-100"}) {
    INFO(id);
    const ComputedLaw* law = find_law(computed, id);
    REQUIRE(law != nullptr);
    REQUIRE(law->relative_density.size() == 5);
    CHECK(law->relative_density.front() == 0.02);
    CHECK(law->relative_density.back() == 0.06);
    CHECK(law->law.origin.fitted_relative_density == Range{0.02, 0.06});
    CHECK(law->law.origin.density_basis == DensityBasis::true_);
    CHECK(law->law.origin.evidence == Evidence::computed);
    REQUIRE(law->law.origin.computation);
    CHECK(law->law.origin.computation->method == "frame");
    CHECK(law->law.origin.computation->version == "0.1.0");
    double largest = 0;
    for (std::size_t i = 0; i < law->computed.size(); ++i) {
      const double fitted = law->law.coefficient * std::pow(law->relative_density[i], law->law.exponent);
      largest = std::max(largest, std::abs(fitted / law->computed[i] - 1));
    }
    CHECK(largest == Approx(law->law.origin.computation->largest_residual).epsilon(1e-6));
    CHECK(largest <= LawAssumptions{}.largest_residual);
  }
  // A slender octet stretches: E is near a ninth of the density along an edge [deshpande2001octet], and the exponent
  // near 1; stiff nodes and the nodes' double volume raise both a little.
  const ComputedLaw* modulus = find_law(computed, "frame-stiffness-100");
  CHECK(modulus->law.exponent == Approx(1.0).margin(0.15));
  CHECK(modulus->computed.front() == Approx(0.02 / 9).epsilon(0.2));
}

TEST_CASE("no plateau is claimed above first collapse, however thick the struts") {
  Catalogue catalogue = own_catalogue();
  const UnitCell& cell = catalogue.cell("kelvin");
  ComputedLawOptions options;
  options.relative_density = {0.12, 0.24};
  const ComputedLaws computed = computed_laws(cell, options);
  const ComputedLaw* plateau = find_law(computed, "frame-collapse-100");
  REQUIRE(plateau != nullptr);
  const Eigen::Vector3d along = direction_vector("100");
  const double thin = size_ratio(cell, 0.12), thick = size_ratio(cell, 0.24);
  // Slender struts soften, so the mean of the path is the plateau; thick ones do not, so first collapse is.
  CHECK(plateau->computed.front() == Approx(frame_collapse(cell, thin, along, 0.5).mean_path_stress).epsilon(1e-9));
  CHECK(frame_collapse(cell, thick, along, 0.5).mean_path_stress > frame_collapse(cell, thick, along).lower);
  CHECK(plateau->computed.back() == Approx(frame_collapse(cell, thick, along).lower).epsilon(1e-6));
}

TEST_CASE("a cell without geometry and a range that is none are refused") {
  Catalogue catalogue = own_catalogue();
  CHECK_THROWS_MATCHES(computed_laws(catalogue.cell("metal_foam_closed"), sparse_range()), OutOfDomain,
                       Catch::Matchers::Message(catalogue.cell("metal_foam_closed").name +
                                                " has no geometry of its own, so nothing of it can be computed. Its "
                                                "laws come from tests and from its class."));
  ComputedLawOptions turned = sparse_range();
  turned.relative_density = {0.2, 0.1};
  CHECK_THROWS_MATCHES(computed_laws(catalogue.cell("octet"), turned), OutOfDomain,
                       Catch::Matchers::Message("laws are computed over a range of relative densities, the lower one "
                                                "first, and 0.2 to 0.1 is none"));
}

TEST_CASE("a honeycomb's stiffness is computed along its axis and its folding is not") {
  Catalogue catalogue = own_catalogue();
  ComputedLawOptions options;
  // Across the axis the walls bend, so they need some voxels across on the coarse grid too.
  options.relative_density = {0.25, 0.35};
  options.grid = 64;
  const UnitCell& cell = catalogue.cell("honeycomb_uniform_wall");
  const ComputedLaws computed = computed_laws(cell, options);
  const ComputedLaw* modulus = find_law(computed, "voxel-stiffness-001");
  REQUIRE(modulus != nullptr);
  // Along the axis a honeycomb is its own share of metal: E = relative density x Es, exactly, also on each grid for
  // the share that its voxels take. What is left is how grids of another density are brought to the asked one: by one
  // exponent for the whole stiffness, which bending across the axis raises above the 1 that holds along it. The
  // spread covers that.
  REQUIRE(modulus->computed.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(modulus->computed[i] ==
          Approx(modulus->relative_density[i]).epsilon(modulus->law.origin.computation->spread));
  }
  CHECK(modulus->law.origin.computation->spread < 0.05);
  for (const ComputedLaw& law : computed.laws)
    CHECK(law.property == "elastic modulus");
  CHECK(computed.notes ==
        std::vector<std::string>{cell.name + " crushes by folding its walls, which no solid at small "
                                             "strains shows: its plateau stress is not computed. Use "
                                             "a folding law or a coupon test."});
}

TEST_CASE("limit loads on two grids are brought to one density before they are extrapolated") {
  SolidCollapse coarse, fine;
  coarse.grid = 32;
  fine.grid = 64;
  coarse.relative_density = 0.11;
  fine.relative_density = 0.105;
  // A bending cell, stiffness as density squared, so strength as density to the 3/2, with an error of 0.4 voxel
  // edges.
  coarse.greatest = 0.3 * std::pow(0.11, 1.5) * (1 + 0.4 / 32 * 10);
  fine.greatest = 0.3 * std::pow(0.105, 1.5) * (1 + 0.4 / 64 * 10);
  const ExtrapolatedCollapse limit = extrapolated_collapse(coarse, fine, 0.1, 2.0);
  CHECK(limit.value == Approx(0.3 * std::pow(0.1, 1.5)).epsilon(1e-12));
  CHECK(limit.spread == Approx(0.4 / 64 * 10).epsilon(1e-9));
}
