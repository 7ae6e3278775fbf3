#include "unit_cell/density_fit.hpp"

#include "crushwright/catalogue.hpp"
#include "crushwright/errors.hpp"
#include "unit_cell/body_volume.hpp"
#include "unit_cell/plate_pieces.hpp"
#include "unit_cell/sample_lattices.hpp"
#include "unit_cell/skeletal_level.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace crushwright;
using std::numbers::pi;

namespace {

Catalogue shipped_catalogue() {
  return Catalogue({CRUSHWRIGHT_SOURCE_DIR "/lattices"});
}

/// One wall of a honeycomb in the plane, as a strip with square ends.
struct Wall {
  std::array<double, 2> from;
  std::array<double, 2> to;
  double thickness;
};

/// Regular honeycomb of side 1 in a rectangle √3 × 3 that repeats; walls along y are `doubling` times as thick.
std::vector<Wall> honeycomb_walls(double thickness, double doubling) {
  const double half = 0.5 * std::numbers::sqrt3;
  std::vector<Wall> walls;
  for (int shift = -1; shift <= 1; ++shift)
    for (int rise = -1; rise <= 1; ++rise) {
      const double x = 2 * half * shift, y = 3.0 * rise;
      walls.push_back({{x, y}, {x, y + 1}, doubling * thickness});
      walls.push_back({{x, y + 1}, {x + half, y + 1.5}, thickness});
      walls.push_back({{x, y + 1}, {x - half, y + 1.5}, thickness});
      walls.push_back({{x + half, y + 1.5}, {x + half, y + 2.5}, doubling * thickness});
      walls.push_back({{x + half, y + 2.5}, {x, y + 3}, thickness});
      walls.push_back({{x + half, y + 2.5}, {x + 2 * half, y + 3}, thickness});
    }
  return walls;
}

bool in_a_wall(const std::vector<Wall>& walls, double x, double y) {
  for (const Wall& wall : walls) {
    const double ax = wall.to[0] - wall.from[0], ay = wall.to[1] - wall.from[1];
    const double along = (x - wall.from[0]) * ax + (y - wall.from[1]) * ay;
    const double across = (x - wall.from[0]) * ay - (y - wall.from[1]) * ax;
    if (along >= 0 && along <= 1 && std::abs(across) <= 0.5 * wall.thickness)
      return true;
  }
  return false;
}

/// Counts points in rows that are shifted against one another, because a column of points in line with a wall would
/// count the whole wall in or out.
double counted_honeycomb_density(double thickness, double doubling) {
  const auto walls = honeycomb_walls(thickness, doubling);
  const int columns = 700, rows = 1212;
  int inside = 0;
  for (int row = 0; row < rows; ++row) {
    const double shift = std::fmod(row * 0.6180339887498949, 1.0);
    for (int column = 0; column < columns; ++column)
      inside += in_a_wall(walls, (column + shift) / columns * std::numbers::sqrt3, (row + 0.5) / rows * 3) ? 1 : 0;
  }
  return static_cast<double>(inside) / (columns * rows);
}

} // namespace

TEST_CASE("Samples of a known polynomial give back its coefficients") {
  const std::vector<double> known{3.1, 0, -4.2};
  std::vector<DensitySample> samples;
  for (double tau = 0.02; tau < 0.2; tau += 0.02)
    samples.push_back({tau, evaluate_density(known, tau), 0});
  const auto fitted = fitted_coefficients({0, 0, 0}, {true, false, true}, samples);
  REQUIRE(fitted.size() == 3);
  CHECK(fitted[0] == Approx(3.1).epsilon(1e-10));
  CHECK(fitted[1] == 0);
  CHECK(fitted[2] == Approx(-4.2).epsilon(1e-10));
  CHECK_THROWS_AS(fitted_coefficients({0, 0}, {false, false}, samples), OutOfDomain);
}

TEST_CASE("The fitted cubic coefficient of a strut cell is its node overlap") {
  // ρ̄ = c2 τ² - (overlap / 8) τ³ with the overlap by integration over directions, not by sampling.
  for (const auto& lattice : {sample_lattices::all()[1], sample_lattices::all()[4]}) {
    CAPTURE(lattice.name);
    const DensityFit fit = density_of_solid(CellSkeleton::of_struts(lattice.struts));
    REQUIRE(fit.coefficients.size() == 3);
    CHECK(fit.coefficients[0] == 0);
    CHECK(fit.coefficients[1] == Approx(0.25 * pi * sample_lattices::length(lattice.struts)).epsilon(1e-12));
    CHECK(fit.coefficients[2] == Approx(-sample_lattices::node_overlap(lattice.struts) / 8).epsilon(2e-3));
    CHECK(fit.largest_error < 5e-4);
    CHECK(fit.samples.size() >= 12);
    CHECK(fit.samples.back().density > 0.45);
  }
}

TEST_CASE("A honeycomb's closed form equals the counted area of its walls") {
  struct Form {
    double nominal_slope;
    double doubling;
    double edge; // in sides of the hexagon
  };
  const double root3 = std::numbers::sqrt3;
  for (const Form& form :
       {Form{2 / root3, 1, 1}, Form{2, 1, root3}, Form{8 / (3 * root3), 2, 1}, Form{8.0 / 3, 2, root3}}) {
    const DensityFit fit = density_of_honeycomb(form.nominal_slope);
    for (double tau : {0.05, 0.15}) {
      CAPTURE(form.nominal_slope, tau);
      CHECK(evaluate_density(fit.coefficients, tau) ==
            Approx(counted_honeycomb_density(tau * form.edge, form.doubling)).epsilon(1e-3));
    }
  }
  CHECK_THROWS_WITH(
      density_of_honeycomb(1.3),
      "no regular honeycomb has a nominal density of 1.3 times the wall's size ratio; expected 1.1547, 2, "
      "1.5396 or 2.6667");
}

TEST_CASE("A foam has no solid to take a density from") {
  UnitCell foam;
  foam.id = "metal_foam";
  foam.cell_class = CellClass::foam;
  CHECK_THROWS_WITH(density_of_cell(foam), "cell 'metal_foam' is a foam: its density is stated directly");
}

TEST_CASE("Every catalogue cell's stored density is that of its own solid") {
  Catalogue catalogue = shipped_catalogue();
  int cells = 0;
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class == CellClass::honeycomb || !is_sized(cell))
      continue;
    ++cells;
    CAPTURE(id);
    CHECK(cell.density_fit_error < 5e-3);
    const Range range = cell.size_ratio_range;
    // The ramp of a coarse grid reaches across the thinner plates.
    const int n = cell.cell_class == CellClass::plate ? 160 : 96;
    for (double size : {0.5 * (range.low + range.high), range.high})
      CHECK(relative_density(cell, size) == Approx(sampled_body_fraction(*solid_body(cell, size), n)).epsilon(0.01));
  }
  CHECK(cells >= 18);
}

TEST_CASE("Every catalogue strut cell's stored cubic coefficient is its node overlap") {
  // By integration over directions around each node: no grid, no solid, no fit.
  Catalogue catalogue = shipped_catalogue();
  int cells = 0;
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class != CellClass::strut || cell.true_density_coefficients.size() != 3)
      continue;
    ++cells;
    CAPTURE(id);
    CHECK(cell.true_density_coefficients[2] == Approx(-sample_lattices::node_overlap(cell.struts) / 8).epsilon(2e-3));
  }
  CHECK(cells > 0);
}

TEST_CASE("BCC, BCCz, FCC and FCCz have the density polynomials printed by Coluccia and others") {
  // Graded-lattice paper, Table 2, in strut diameter over cell edge; printed to five figures.
  struct Printed {
    const char* id;
    double square, cube;
  };
  Catalogue catalogue = shipped_catalogue();
  for (const Printed& printed : {Printed{"bcc", 5.4424, -4.9020}, Printed{"bccz", 6.2274, -6.1502},
                                 Printed{"fcc_side_faces", 4.4434, -3.9141}, Printed{"fccz", 5.2295, -5.44177}}) {
    const UnitCell& cell = catalogue.cell(printed.id);
    for (double tau : {0.05, 0.1, 0.2})
      CHECK(evaluate_density(cell.true_density_coefficients, tau) ==
            Approx(printed.square * tau * tau + printed.cube * tau * tau * tau).epsilon(1e-3));
  }
}

TEST_CASE("Every catalogue honeycomb's stored density is the closed form's") {
  Catalogue catalogue = shipped_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class != CellClass::honeycomb)
      continue;
    CAPTURE(id);
    const bool doubled =
        cell.nominal_density_coefficients.front() > 2.1 ||
        (cell.nominal_density_coefficients.front() > 1.2 && cell.nominal_density_coefficients.front() < 1.9);
    const bool by_side = cell.nominal_density_coefficients.front() < 1.9;
    for (double tau : {0.05, 0.12})
      CHECK(evaluate_density(cell.true_density_coefficients, tau) ==
            Approx(counted_honeycomb_density(by_side ? tau : tau * std::numbers::sqrt3, doubled ? 2 : 1))
                .epsilon(1e-3));
  }
}

TEST_CASE("Every catalogue cell's true density rises with the size and stays below the nominal one") {
  Catalogue catalogue = shipped_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (!is_sized(cell))
      continue;
    CAPTURE(id);
    double before = 0;
    for (int i = 0; i <= 50; ++i) {
      const double tau =
          cell.size_ratio_range.low + i / 50.0 * (cell.size_ratio_range.high - cell.size_ratio_range.low);
      const double density = cell.true_density_constant + evaluate_density(cell.true_density_coefficients, tau);
      CHECK(density > before);
      before = density;
      if (cell.cell_class == CellClass::skeletal) // no parts to be summed
        continue;
      // A hair above at the thin end, where the two differ by less than the fit's own error.
      CHECK(density <= evaluate_density(cell.nominal_density_coefficients, tau) * (1 + cell.density_fit_error));
    }
  }
}

TEST_CASE("Every catalogue cell with a solid joins opposite faces at its smallest size") {
  Catalogue catalogue = shipped_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class == CellClass::honeycomb || !is_sized(cell))
      continue;
    CAPTURE(id);
    const double tau = cell.size_ratio_range.low;
    CHECK(connects_opposite_faces(*solid_body(cell, tau), static_cast<int>(std::ceil(4 / tau))));
  }
}

TEST_CASE("A cubic cell of plates has one minus the open box: 3t - 3t² + t³") {
  UnitCell cell = shipped_catalogue().cell("cubic_plate");
  for (double t : {0.05, 0.1, 0.2}) {
    const double exact = 3 * t - 3 * t * t + t * t * t;
    CHECK(relative_density(cell, t) == Approx(exact).epsilon(1e-3));
    // Faces of plates in line with the grid: t of 12 and 18 grid spacings keeps them at one phase.
    const int n = static_cast<int>(std::lround(12 / t));
    CHECK(body_fraction(*solid_body(cell, t), n).value == Approx(exact).epsilon(2e-4));
  }
}

TEST_CASE("The isotropic cubic-octet plate cell has two fifths of its slender metal on {100}") {
  const UnitCell cell = shipped_catalogue().cell("cubic_octet_plate");
  double on_cube = 0, on_octet = 0;
  for (const Plate& plate : cell.plates)
    (plate.corners.size() == 4 ? on_cube : on_octet) += plate_area(plate) * plate.thickness_factor;
  CHECK(on_cube == Approx(3).epsilon(1e-12));
  CHECK(on_cube / (on_cube + on_octet) == Approx(0.4).epsilon(1e-9));
  // Plane-stress plates glued in parallel, by summing each plate's stiffness over strains e_ij: Zener = 1.
  for (double poisson : {0.2, 0.3}) {
    double c11 = 0, c12 = 0, c44 = 0;
    for (const Plate& plate : cell.plates) {
      const auto& p = plate.corners;
      std::array<double, 3> normal{};
      for (std::size_t i = 0; i < 3; ++i) {
        const std::size_t j = (i + 1) % 3, k = (i + 2) % 3;
        normal[i] = (p[1][j] - p[0][j]) * (p[2][k] - p[0][k]) - (p[1][k] - p[0][k]) * (p[2][j] - p[0][j]);
      }
      const double length = std::hypot(normal[0], normal[1], normal[2]);
      const double volume = plate_area(plate) * plate.thickness_factor;
      const auto in_plane = [&](std::size_t i, std::size_t j) {
        return (i == j ? 1.0 : 0.0) - normal[i] * normal[j] / (length * length);
      };
      // C_ijkl = [ν P_ij P_kl + (1 - ν)/2 (P_ik P_jl + P_il P_jk)] E/(1 - ν²), P the projection on the plane.
      const auto stiffness = [&](std::size_t i, std::size_t j, std::size_t k, std::size_t l) {
        return poisson * in_plane(i, j) * in_plane(k, l) +
               0.5 * (1 - poisson) * (in_plane(i, k) * in_plane(j, l) + in_plane(i, l) * in_plane(j, k));
      };
      c11 += volume * stiffness(0, 0, 0, 0);
      c12 += volume * stiffness(0, 0, 1, 1);
      c44 += volume * stiffness(1, 2, 1, 2);
    }
    CHECK(2 * c44 / (c11 - c12) == Approx(1).epsilon(1e-8));
  }
}

TEST_CASE("A skeletal cell thickens from pinch-off to one half") {
  Catalogue catalogue = shipped_catalogue();
  for (const char* id : {"gyroid_skeletal", "diamond_skeletal"}) {
    CAPTURE(id);
    const UnitCell& cell = catalogue.cell(id);
    const SheetSurface surface = sheet_surface(cell.surface);
    const double widest = neck_at_half_density(surface);
    UnitCell any_size = cell;
    any_size.size_ratio_range = {0, 1};
    CHECK(sampled_body_fraction(*solid_body(any_size, widest), 96) == Approx(0.5).epsilon(2e-3));
    CHECK(level_of_neck(surface, 1e-4) == Approx(bond_middle(surface).pinch_off).margin(1e-5));
    double before = cell.true_density_constant;
    for (double part : {0.2, 0.5, 0.8, 0.999}) {
      const double density = sampled_body_fraction(*solid_body(any_size, part * widest), 96);
      CHECK(density > before);
      before = density;
    }
    CHECK_THROWS_AS(level_of_neck(surface, 1.01 * widest), OutOfDomain);
  }
}

TEST_CASE("A skeletal network falls apart just above the level of its bonds' middles") {
  for (SheetSurface surface : {SheetSurface::gyroid, SheetSurface::diamond}) {
    // At a neck of three voxels the bonds hold; half a per cent above pinch-off nothing is joined.
    const int n = 100;
    const double pinch_off = bond_middle(surface).pinch_off;
    int joined = 0;
    for (double level : {level_of_neck(surface, 0.03), 1.005 * pinch_off}) {
      joined += connects_opposite_faces(*level_body(surface, level), n) ? 1 : 0;
    }
    CHECK(joined == 1);
  }
}
