// The solid of every catalogue cell as a closed mesh, against the catalogue's densities and published figures.
#include "crushwright/errors.hpp"
#include "lattice_body/body_mesh.hpp"
#include "surface/mesh_checks.hpp"
#include "surface/mesh_solid.hpp"
#include "unit_cell/catalogue_folder.hpp"
#include "unit_cell/level_surface.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace crushwright;
using namespace crushwright::mesh_checks;

namespace {

constexpr double pi = std::numbers::pi;

BodyPart meshed(const UnitCell& cell, double size_ratio, double spacing) {
  BodyMeshOptions options;
  options.spacing = spacing;
  return mesh_cell(cell, size_ratio, 1, options);
}

double box_volume(const UnitCell& cell, double size_ratio) {
  const BodyBox box = one_cell(cell, size_ratio, 1).box;
  return box.high[0] * box.high[1] * box.high[2];
}

/// Limit of values whose error falls with the square of the spacing, from one spacing and its half.
double limit_of(double coarse, double fine) {
  return fine + (fine - coarse) / 3;
}

} // namespace

TEST_CASE("the meshed solid of every sized catalogue cell is closed and has the density of the catalogue's curve") {
  const Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (!is_sized(cell))
      continue;
    const bool rounded = cell.cell_class == CellClass::strut || cell.cell_class == CellClass::skeletal;
    const bool cornered = cell.cell_class == CellClass::plate; // inner edges, cut across over one grid step
    const double part = cornered ? 0.9 : 0.6;
    const double ratio = (1 - part) * cell.size_ratio_range.low + part * cell.size_ratio_range.high;
    const double spacing = ratio / (rounded ? 7 : 3), finer = cornered ? 3 : 2;
    const BodyPart coarse = meshed(cell, ratio, spacing), fine = meshed(cell, ratio, spacing / finer);
    const double box = box_volume(cell, ratio), stated = relative_density(cell, ratio);
    const double coarse_miss = coarse.volume / box / stated - 1, fine_miss = fine.volume / box / stated - 1;
    INFO(id << " at " << ratio << ": " << 100 * coarse_miss << " %, " << 100 * fine_miss << " %");
    CHECK(closed_and_oriented(fine.mesh));
    CHECK(fine.volume == Approx(volume(fine.mesh)).epsilon(1e-9));
    // Refinement closes in on the catalogue's value, whose own fit may miss by the stated error.
    CHECK(std::abs(fine_miss) < std::max(0.4 * std::abs(coarse_miss), 1.5e-3) + cell.density_fit_error);
    const double limit = fine.volume + (fine.volume - coarse.volume) / (finer * finer - 1);
    CHECK(limit / box == Approx(stated).epsilon(2e-3 + cell.density_fit_error));
  }
}

TEST_CASE("the metal's area of bars and sheets is twice the slope of the density by size over edge") {
  // Bodies grown alike about a skeleton: dV = A dr, r half the size. The curve is fitted to volumes alone.
  const Catalogue catalogue = own_catalogue();
  for (const std::string id : {"octet", "kelvin", "simple_cubic", "gyroid_sheet", "primitive_sheet"}) {
    const UnitCell& cell = catalogue.cell(id);
    const double ratio = 0.6 * cell.size_ratio_range.low + 0.4 * cell.size_ratio_range.high;
    const double spacing = ratio / (cell.cell_class == CellClass::strut ? 8 : 3);
    const double step = 1e-4;
    const double slope = (relative_density(cell, ratio + step) - relative_density(cell, ratio - step)) / (2 * step);
    INFO(id);
    CHECK(limit_of(meshed(cell, ratio, spacing).surface, meshed(cell, ratio, spacing / 2).surface) ==
          Approx(2 * slope).epsilon(5e-3));
  }
}

TEST_CASE("the simple cubic cell has the volume of three bars with their tricylinder counted once") {
  // 3π(r/a)² - 8√2(r/a)³: the union of three round bars at right angles; derived, and the tricylinder's volume is a
  // classical closed form.
  const Catalogue catalogue = own_catalogue();
  for (double ratio : {0.16, 0.30}) {
    const double r = 0.5 * ratio;
    const double exact = 3 * pi * r * r - 8 * std::numbers::sqrt2 * r * r * r;
    const double spacing = ratio / 12;
    const BodyPart coarse = meshed(catalogue.cell("simple_cubic"), ratio, spacing);
    const BodyPart fine = meshed(catalogue.cell("simple_cubic"), ratio, spacing / 2);
    INFO(coarse.volume / exact - 1 << " " << fine.volume / exact - 1);
    CHECK(std::abs(fine.volume / exact - 1) < 2e-3);
    CHECK(limit_of(coarse.volume, fine.volume) == Approx(exact).epsilon(1e-3));
  }
}

TEST_CASE("the octet cell has the published density, 26.66 (r/l)² - 54.8 (r/l)³") {
  // Deshpande, Fleck, Ashby, J. Mech. Phys. Solids 49 (2001) 1747; memory. The last digit of the cubic term is not
  // certain, which the tolerance of 1.5 % allows for.
  const Catalogue catalogue = own_catalogue();
  for (double ratio : {0.08, 0.12}) {
    const double r = 0.5 * ratio * std::numbers::sqrt2; // over the strut's length, a / √2
    const double spacing = ratio / 6;
    CHECK(limit_of(meshed(catalogue.cell("octet"), ratio, spacing).volume,
                   meshed(catalogue.cell("octet"), ratio, spacing / 2).volume) ==
          Approx(26.66 * r * r - 54.8 * r * r * r).epsilon(0.015));
  }
}

TEST_CASE("the middle surfaces of gyroid, diamond and primitive sheets have the areas of the minimal surfaces") {
  // Areas of the minimal surfaces in a cube of edge 1: 3.0915, 3.8378, 2.3451 (Schoen, NASA TN D-5541, 1970; memory).
  // The entries mean the first harmonics, whose primitive surface is 0.3 % larger: 3.0916, 3.8380, 2.3526 (memory,
  // and found by an independent mesh).
  const struct {
    SheetSurface surface;
    double nodal, minimal, apart;
  } surfaces[] = {{SheetSurface::gyroid, 3.0916, 3.0915, 1e-3},
                  {SheetSurface::diamond, 3.8380, 3.8378, 1e-3},
                  {SheetSurface::primitive, 2.3526, 2.3451, 4e-3}};
  for (const auto& each : surfaces) {
    const auto area_at = [&](int n) {
      FieldGrid grid;
      grid.spacing = {1.0 / n, 1.0 / n, 1.0 / n};
      grid.cells = {n, n, n};
      grid.slope = steepest_slope(each.surface);
      const TriangleMesh mesh = mesh_of_field([&](const Point& p) { return surface_value(each.surface, p); }, grid);
      CHECK(volume(mesh) == Approx(0.5).epsilon(2e-3)); // both sides alike
      return area_inside(mesh, {0, 0, 0}, {1, 1, 1});
    };
    const double area = limit_of(area_at(24), area_at(48));
    INFO(area);
    CHECK(area == Approx(each.nodal).epsilon(1e-3));
    CHECK(area == Approx(each.minimal).epsilon(each.apart));
  }
}

TEST_CASE("opposite faces of a meshed cell carry the same cut, so that cells join") {
  const Catalogue catalogue = own_catalogue();
  for (const char* id : {"octet", "gyroid_sheet", "cubic_octet_plate"}) {
    const UnitCell& cell = catalogue.cell(id);
    const double ratio = 0.3 * cell.size_ratio_range.low + 0.7 * cell.size_ratio_range.high;
    const TriangleMesh mesh = meshed(cell, ratio, ratio / 4).mesh;
    // It serves as a user's own cell: the reader of such cells finds it filling its faces, and alike on both sides.
    CHECK_NOTHROW(require_one_cell(mesh, 1));
    CHECK(volume_in_cell(mesh) == Approx(volume(mesh)).epsilon(1e-9));
    for (std::size_t axis = 0; axis < 3; ++axis) {
      double cut[2] = {0, 0};
      for (std::size_t side = 0; side < 2; ++side)
        for (const auto& triangle : triangles_in_plane(mesh, axis, double(side))) {
          const Point area = cross(minus(triangle[1], triangle[0]), minus(triangle[2], triangle[0]));
          cut[side] += 0.5 * std::sqrt(dot(area, area));
        }
      INFO(id << " " << axis);
      CHECK(cut[0] > 0.05);
      CHECK(cut[0] == Approx(cut[1]).epsilon(1e-9));
    }
  }
}

TEST_CASE("a cell without a shape of its own is refused") {
  const Catalogue catalogue = own_catalogue();
  CHECK_THROWS_WITH(one_cell(catalogue.cell("metal_foam_closed"), 0.1, 1),
                    "cell 'metal_foam_closed' is a foam: it has no solid of its own, only a density");
}
