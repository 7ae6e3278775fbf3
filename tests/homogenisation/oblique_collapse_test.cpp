#include "homogenisation/oblique_collapse.hpp"

#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "homogenisation/frame_collapse.hpp"
#include "homogenisation/hand_made_frames.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace crushwright;

namespace {

const Eigen::Vector3d along_x = Eigen::Vector3d::UnitX();
const Eigen::Vector3d along_y = Eigen::Vector3d::UnitY();
constexpr double degree = std::numbers::pi / 180;

/// Greatest share of its squash load that a round column carries which bends between two hinges at a rising ratio of
/// moment to force: both over their plastic values, m = slope n. Bisection over the angle of the neutral chord.
double column_share(double slope) {
  double low = 0, high = std::numbers::pi / 2;
  for (int step = 0; step < 60; ++step) {
    const double chord = 0.5 * (low + high);
    const double force = 2 / std::numbers::pi * (chord + std::sin(chord) * std::cos(chord));
    (std::pow(std::cos(chord), 3) > slope * force ? low : high) = chord;
  }
  return 2 / std::numbers::pi * (low + std::sin(low) * std::cos(low));
}

} // namespace

TEST_CASE("a simple cubic lattice under an oblique force is a column with a plastic hinge at each end") {
  // Derived. A column of the cell carries N = σ a² and V = N tan θ across it; hinges stand half a diameter from the
  // nodes, so M = V (a − d)/2 at both, and N and M meet the exact curve of the round section. The struts that lie
  // across have the same moment and no axial force: they are not the first.
  for (const double d : {0.1, 0.2, 0.3}) {
    for (const double angle : {5 * degree, 15 * degree, 30 * degree}) {
      const double np = std::numbers::pi * d * d / 4;
      const double mp = d * d * d / 6;
      const double share = column_share(std::tan(angle) * np * (1 - d) / (2 * mp));
      const HingedFrame frame = frame_of(cubic_struts(), d);
      CHECK(oblique_collapse(frame, along_x, along_y, std::tan(angle), Sides::free, 1e-4) ==
            Approx(share * np).epsilon(2e-4));
    }
  }
}

TEST_CASE("an octet truss under an oblique force collapses at 1 / (1 + 2 tan θ) with free sides and 1 / (1 + tan θ) "
          "with held ones") {
  // Derived for pins: Σ = (ρ̄/6) Σ_i s_i d_i⊗d_i over the six ⟨110⟩ directions, |s_i| <= 1. Free: the bars in the
  // plane of the shear carry 3 λ/ρ̄ (1 ± 2 tan θ), all others ±3 λ/ρ̄. Held: the bars out of that plane stay at 1 and
  // the lateral stress takes what the others lack. Bending at the joints adds the rest, which goes with the diameter,
  // so the loads of two diameters point to the limit of none.
  const auto limit_of_slender = [](const auto& load_over_density) {
    const HingedFrame slender = frame_of(octet_struts(), 0.01), stout = frame_of(octet_struts(), 0.02);
    return 2 * load_over_density(slender) / nominal_density(slender) -
           load_over_density(stout) / nominal_density(stout);
  };
  for (const double angle : {0.0, 10 * degree, 30 * degree}) {
    const double tangent = std::tan(angle);
    CHECK(limit_of_slender([&](const HingedFrame& frame) {
            return oblique_collapse(frame, along_x, along_y, tangent, Sides::free, 3e-4);
          }) == Approx(1 / (3 * (1 + 2 * tangent))).epsilon(1e-3));
    CHECK(limit_of_slender([&](const HingedFrame& frame) {
            return oblique_collapse(frame, along_x, along_y, tangent, Sides::held, 2e-3);
          }) == Approx(1 / (3 * (1 + tangent))).epsilon(6e-3)); // three times the gap
  }
  // Shear alone: the two bars of each pair carry ±6 τ/ρ̄.
  CHECK(limit_of_slender([](const HingedFrame& frame) { return shear_collapse(frame, along_x, along_y); }) ==
        Approx(1.0 / 6).epsilon(6e-3));
}

TEST_CASE("a force along the axis leaves the collapse stress as frame_collapse has it, and the factor at 1 exactly") {
  const Catalogue catalogue = own_catalogue();
  for (const char* id : {"bcc", "octet", "diamond"}) {
    const UnitCell& cell = catalogue.cell(id);
    const double size = size_ratio(cell, 0.1);
    const ObliqueCollapse oblique = frame_oblique_collapse(cell, size, along_x, {0, 10 * degree});
    CHECK(oblique.low[0] == 1);
    CHECK(oblique.high[0] == 1);
    CHECK(oblique_collapse(hinged_frame_of(cell, size), along_x, along_y, 0, Sides::free) ==
          Approx(frame_collapse(cell, size, along_x).lower).epsilon(0.005));
  }
}

TEST_CASE("the lateral axes stand across the direction and each other, on cell edges where the direction does") {
  for (const char* digits : {"100", "001", "110", "111", "210"}) {
    const Eigen::Vector3d along = direction_vector(digits).normalized();
    const std::vector<Eigen::Vector3d> axes = lateral_axes(along);
    REQUIRE(axes.size() == 2);
    CHECK(axes[0].norm() == Approx(1));
    CHECK(axes[1].norm() == Approx(1));
    CHECK(axes[0].dot(along) == Approx(0).margin(1e-12));
    CHECK(axes[1].dot(along) == Approx(0).margin(1e-12));
    CHECK(axes[0].dot(axes[1]) == Approx(0).margin(1e-12));
  }
  CHECK((lateral_axes({2, 0, 0})[0] - along_y).norm() < 1e-12);
}

TEST_CASE("a cell with mirrors carries a force to the left as one to the right") {
  for (const auto& struts : {bcc_struts(), octet_struts(), kelvin_struts()}) {
    const HingedFrame frame = frame_of(struts, 0.1);
    const double tangent = std::tan(20 * degree);
    CHECK(oblique_collapse(frame, along_x, along_y, tangent, Sides::free) ==
          Approx(oblique_collapse(frame, along_x, along_y, -tangent, Sides::free)).epsilon(0.003));
  }
}

TEST_CASE("sides that are held never carry less than free ones, and a steeper force never more than a flat one") {
  const Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class != CellClass::strut) {
      continue;
    }
    INFO(id);
    const std::vector<double> angles{0, 10 * degree, 20 * degree, 30 * degree};
    const ObliqueCollapse oblique = frame_oblique_collapse(cell, size_ratio(cell, 0.12), along_x, angles);
    for (std::size_t k = 1; k < angles.size(); ++k) {
      CHECK(oblique.low[k] > 0);
      CHECK(oblique.low[k] <= oblique.high[k]);
      CHECK(oblique.high[k] <= 1);
      // Along a cell edge every cell of the catalogue has mirrors across it, so the set of states that it carries is
      // symmetric in the shear, and convex: it narrows away from the axis. Bounds are 0.2 % wide.
      CHECK(oblique.low[k] <= oblique.low[k - 1] * 1.003);
      CHECK(oblique.high[k] <= oblique.high[k - 1] * 1.011);
    }
  }
}

TEST_CASE("a stretching lattice loses more to an oblique force than a bending one") {
  const Catalogue catalogue = own_catalogue();
  const auto at_30_degrees = [&](const char* id) {
    const UnitCell& cell = catalogue.cell(id);
    return frame_oblique_collapse(cell, size_ratio(cell, 0.1), along_x, {30 * degree}).low[0];
  };
  CHECK(at_30_degrees("octet") < at_30_degrees("kelvin"));
  CHECK(at_30_degrees("kelvin") < at_30_degrees("bcc"));
  CHECK(at_30_degrees("simple_cubic") < at_30_degrees("octet"));
}

TEST_CASE("a uniaxial stress that is turned holds the oblique stress and a lateral one") {
  const double angle = 25 * degree;
  const Eigen::Vector3d turned = std::cos(angle) * along_x + std::sin(angle) * along_y;
  const Voigt uniaxial = axial_stress(turned) / std::pow(std::cos(angle), 2);
  const Voigt lateral = axial_stress(along_y) * std::pow(std::tan(angle), 2);
  CHECK((uniaxial - lateral - oblique_stress(along_x, along_y, std::tan(angle))).norm() < 1e-12);
}

TEST_CASE("oblique collapse refuses what it cannot do, with the value") {
  const Catalogue catalogue = own_catalogue();
  const UnitCell& cell = catalogue.cell("bcc");
  CHECK_THROWS_AS(frame_oblique_collapse(catalogue.cell("gyroid_sheet"), 0.1, along_x, {0.1}), OutOfDomain);
  CHECK_THROWS_WITH(frame_oblique_collapse(cell, 0.1, along_x, {0.1, 1.2}), Catch::Contains("1.2"));
  CHECK_THROWS_AS(frame_oblique_collapse(cell, 0.1, along_x, {0.2, 0.1}), OutOfDomain);
  CHECK_THROWS_AS(frame_oblique_collapse(cell, 0.1, {0, 0, 0}, {0.1}), OutOfDomain);
}
