#include "unit_cell/cell_solid.hpp"

#include "crushwright/errors.hpp"
#include "unit_cell/boundary_distance.hpp"
#include "unit_cell/catalogue_folder.hpp"
#include "unit_cell/sample_lattices.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace crushwright;
using std::numbers::pi;

namespace {

double true_density(const std::vector<Strut>& struts, double size_ratio) {
  return volume_fractions(CellSkeleton::of_struts(struts), std::vector{size_ratio}).front().value;
}

/// Points where the surface crosses the edges of a fine grid, found by bisection; no gradients, no feet.
std::vector<CellPoint> surface_points(double (*value)(const CellPoint&), int n) {
  std::vector<CellPoint> points;
  const double h = 1.0 / n;
  for (int z = 0; z < n; ++z)
    for (int y = 0; y < n; ++y)
      for (int x = 0; x < n; ++x)
        for (std::size_t axis = 0; axis < 3; ++axis) {
          CellPoint low{h * x, h * y, h * z};
          CellPoint high = low;
          high[axis] += h;
          if ((value(low) > 0) == (value(high) > 0))
            continue;
          const bool rising = value(high) > 0;
          for (int i = 0; i < 40; ++i) {
            CellPoint middle = low;
            middle[axis] = 0.5 * (low[axis] + high[axis]);
            ((value(middle) > 0) == rising ? high : low) = middle;
          }
          points.push_back(low);
        }
  return points;
}

double distance_to_cloud(const std::vector<CellPoint>& cloud, const CellPoint& p) {
  double nearest = 4;
  for (const CellPoint& q : cloud) {
    double squared = 0;
    for (std::size_t i = 0; i < 3; ++i) {
      double apart = q[i] - p[i];
      apart -= std::round(apart);
      squared += apart * apart;
    }
    nearest = std::min(nearest, squared);
  }
  return std::sqrt(nearest);
}

/// Area of the zero set inside one tetrahedron of corner values, f taken as linear.
double cut_area(const std::array<CellPoint, 4>& corners, const std::array<double, 4>& values) {
  std::vector<CellPoint> crossings;
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = i + 1; j < 4; ++j)
      if ((values[i] > 0) != (values[j] > 0)) {
        const double part = values[i] / (values[i] - values[j]);
        CellPoint p{};
        for (std::size_t k = 0; k < 3; ++k)
          p[k] = corners[i][k] + part * (corners[j][k] - corners[i][k]);
        crossings.push_back(p);
      }
  const auto triangle = [](const CellPoint& a, const CellPoint& b, const CellPoint& c) {
    const CellPoint u{b[0] - a[0], b[1] - a[1], b[2] - a[2]}, v{c[0] - a[0], c[1] - a[1], c[2] - a[2]};
    return 0.5 * std::hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]);
  };
  if (crossings.size() == 3)
    return triangle(crossings[0], crossings[1], crossings[2]);
  if (crossings.size() == 4) // two corners against two: edges 02, 03, 12, 13 go around as 0, 1, 3, 2
    return triangle(crossings[0], crossings[1], crossings[2]) + triangle(crossings[3], crossings[1], crossings[2]);
  return 0;
}

/// Six tetrahedra about the diagonal of each cube of the grid.
double triangulated_area(SheetSurface surface, int n) {
  constexpr std::array<std::array<std::size_t, 3>, 6> orders{
      {{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}}};
  double area = 0;
  for (int cube = 0; cube < n * n * n; ++cube)
    for (const auto& order : orders) {
      std::array<CellPoint, 4> corners{};
      corners[0] = {double(cube % n) / n, double(cube / n % n) / n, double(cube / n / n) / n};
      for (std::size_t i = 0; i < 3; ++i) {
        corners[i + 1] = corners[i];
        corners[i + 1][order[i]] += 1.0 / n;
      }
      std::array<double, 4> values{};
      for (std::size_t i = 0; i < 4; ++i)
        values[i] = surface_value(surface, corners[i]);
      area += cut_area(corners, values);
    }
  return area;
}

double gyroid_value(const CellPoint& p) {
  const double x = 2 * pi * p[0], y = 2 * pi * p[1], z = 2 * pi * p[2];
  return std::sin(x) * std::cos(y) + std::sin(y) * std::cos(z) + std::sin(z) * std::cos(x);
}

// The same surface in its other usual form, whose origin lies an eighth of the cell away.
double diamond_value(const CellPoint& p) {
  const double quarter = pi / 4;
  const double x = 2 * pi * p[0] - quarter, y = 2 * pi * p[1] - quarter, z = 2 * pi * p[2] - quarter;
  return std::cos(x) * std::cos(y) * std::cos(z) + std::sin(x) * std::sin(y) * std::sin(z);
}

} // namespace

TEST_CASE("Three perpendicular bars through one node enclose the tricylinder volume") {
  // 3π(r/a)² - 8√2(r/a)³: three cylinders less the pairwise and triple overlaps, by hand.
  for (double radius : {0.02, 0.05, 0.10, 0.20}) {
    const double by_hand = 3 * pi * radius * radius - 8 * std::numbers::sqrt2 * std::pow(radius, 3);
    CHECK(true_density(sample_lattices::simple_cubic(), 2 * radius) == Approx(by_hand).epsilon(2e-4));
  }
}

TEST_CASE("The octet solid has the density of the published closed form") {
  // 26.66(r/l)² - 54.8(r/l)³, l = a/√2; Deshpande, Fleck and Ashby 2001, from memory.
  for (double radius : {0.02, 0.04, 0.06, 0.08}) {
    const double slenderness = radius * std::numbers::sqrt2;
    const double published = 26.66 * std::pow(slenderness, 2) - 54.8 * std::pow(slenderness, 3);
    CHECK(true_density(sample_lattices::octet(), 2 * radius) == Approx(published).epsilon(0.015));
  }
}

TEST_CASE("The overlap at the nodes equals the integral over directions around each node") {
  for (const auto& lattice : sample_lattices::all()) {
    CAPTURE(lattice.name);
    for (double tau : {0.06, 0.14}) {
      const double expected = 0.25 * pi * sample_lattices::length(lattice.struts) * tau * tau -
                              sample_lattices::node_overlap(lattice.struts) * std::pow(0.5 * tau, 3);
      CHECK(true_density(lattice.struts, tau) == Approx(expected).epsilon(2e-4));
    }
  }
}

TEST_CASE("A strut that ends in the open keeps a ball at each end") {
  const double radius = 0.1, length = 0.4;
  const double capsule = pi * radius * radius * length + 4.0 / 3 * pi * std::pow(radius, 3);
  CHECK(true_density({{{0.3, 0.5, 0.5}, {0.7, 0.5, 0.5}}}, 2 * radius) == Approx(capsule).epsilon(2e-4));
}

TEST_CASE("The sampled volume converges with the square of the grid spacing") {
  const auto skeleton = CellSkeleton::of_struts(sample_lattices::simple_cubic());
  const std::vector<double> tau{0.3};
  const double exact = 3 * pi * 0.15 * 0.15 - 8 * std::numbers::sqrt2 * std::pow(0.15, 3);
  const double coarse = sampled_volume_fractions(skeleton, tau, 40).front() - exact;
  const double middle = sampled_volume_fractions(skeleton, tau, 80).front() - exact;
  const double fine = sampled_volume_fractions(skeleton, tau, 160).front() - exact;
  CHECK(std::log2(coarse / middle) == Approx(2).margin(0.15));
  CHECK(std::log2(middle / fine) == Approx(2).margin(0.15));
}

TEST_CASE("Eight copies of a cell in one twice as large have the same density") {
  for (const auto& lattice : {sample_lattices::bcc(), sample_lattices::kelvin()}) {
    std::vector<Strut> doubled;
    for (int copy = 0; copy < 8; ++copy)
      for (Strut strut : lattice) {
        for (std::size_t i = 0; i < 3; ++i) {
          const double shift = (copy >> i) & 1;
          strut.from[i] = 0.5 * (strut.from[i] + shift);
          strut.to[i] = 0.5 * (strut.to[i] + shift);
        }
        doubled.push_back(strut);
      }
    CHECK(true_density(doubled, 0.1) == Approx(true_density(lattice, 0.2)).epsilon(1e-4));
  }
}

TEST_CASE("A cell that is turned by a quarter and moved has the same density") {
  std::vector<Strut> moved;
  for (const Strut& strut : sample_lattices::octet()) {
    const auto placed = [](const CellPoint& p) { return CellPoint{0.137 - p[1], p[0] + 0.413, p[2] + 0.71}; };
    moved.push_back({placed(strut.from), placed(strut.to)});
  }
  CHECK(true_density(moved, 0.12) == Approx(true_density(sample_lattices::octet(), 0.12)).epsilon(1e-4));
}

TEST_CASE("Struts that are one and the same up to whole cells count once") {
  auto struts = sample_lattices::simple_cubic();
  const auto once = CellSkeleton::of_struts(struts);
  struts.push_back({{0, 1, 1}, {1, 1, 1}});
  struts.push_back({{1, 1, 1}, {1, 0, 1}});
  const auto repeated = CellSkeleton::of_struts(struts);
  CHECK(repeated.strut_length() == Approx(3).epsilon(1e-12));
  CHECK(repeated.strut_length() == once.strut_length());
}

TEST_CASE("The true density lies below the sum of the strut volumes and rises with the strut") {
  for (const auto& lattice : sample_lattices::all()) {
    CAPTURE(lattice.name);
    const std::vector<double> sizes{0.04, 0.08, 0.12, 0.16, 0.20};
    const auto fractions = volume_fractions(CellSkeleton::of_struts(lattice.struts), sizes);
    double before = 0;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      const double nominal = 0.25 * pi * sample_lattices::length(lattice.struts) * sizes[i] * sizes[i];
      CHECK(fractions[i].value < nominal);
      CHECK(fractions[i].value > before);
      before = fractions[i].value;
    }
  }
}

TEST_CASE("A sheet's density gives the area and the Euler characteristic of its middle surface") {
  // Volume within τ/2 of a surface: A τ + (πχ/6) τ³, so two sizes give A and χ. Areas of the minimal surfaces from
  // memory (Schoen); those of primitive and I-WP are of the nodal surfaces, by triangles (next test). χ from genus 3
  // in the primitive cell, two (gyroid), four (diamond) and one (primitive) of which fill the cube; I-WP genus 4,
  // two.
  struct Known {
    SheetSurface surface;
    double area;
    double euler_characteristic;
  };
  for (const Known& known : {Known{SheetSurface::gyroid, 3.0915, -8}, Known{SheetSurface::diamond, 3.8378, -16},
                             Known{SheetSurface::primitive, 2.3526, -4}, Known{SheetSurface::iwp, 3.5536, -12}}) {
    const double tau = 0.065;
    const auto fractions = volume_fractions(CellSkeleton::of_surface(known.surface), std::vector{tau, 2 * tau});
    const double thin = fractions[0].value, thick = fractions[1].value;
    CHECK((8 * thin - thick) / (6 * tau) == Approx(known.area).epsilon(1e-3));
    CHECK((thick - 2 * thin) / (pi * std::pow(tau, 3)) == Approx(known.euler_characteristic).epsilon(0.03));
  }
}

TEST_CASE("The triangulated surface has the area that its walls say") {
  // No feet, no distances: areas of triangles that cut the edges of small tetrahedra, from two grids.
  struct Known {
    SheetSurface surface;
    double area;
  };
  for (const Known& known : {Known{SheetSurface::gyroid, 3.0916}, Known{SheetSurface::diamond, 3.8380},
                             Known{SheetSurface::primitive, 2.3526}, Known{SheetSurface::iwp, 3.5536}}) {
    const double coarse = triangulated_area(known.surface, 32), fine = triangulated_area(known.surface, 48);
    CHECK(fine + (fine - coarse) / 1.25 == Approx(known.area).epsilon(3e-4));
  }
}

TEST_CASE("The boundary distance has the sign of the metal and the distance outside") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (!is_sized(cell))
      continue;
    CAPTURE(id);
    const double tau = 0.5 * (cell.size_ratio_range.low + cell.size_ratio_range.high);
    SampleGrid grid{{48, 48, 48}, repeating_box(cell)};
    if (cell.cell_class == CellClass::honeycomb)
      grid.cells = {300, 519, 1};
    const std::vector<float> field = boundary_distance(cell, tau, grid);
    double metal = 0, steepest = 0;
    // Thin plates in line with the grid are counted in whole voxels.
    const double counting = cell.cell_class == CellClass::plate ? 0.3 : 0.06;
    for (std::size_t i = 0; i < field.size(); ++i) {
      metal += field[i] < 0 ? 1 : 0;
      if (i % std::size_t(grid.cells[0]) > 0 && field[i] < 0.1 && field[i] > -0.1 && field[i - 1] < 0.1 &&
          field[i - 1] > -0.1)
        steepest = std::max(steepest, std::abs(double(field[i]) - double(field[i - 1])) / grid.spacing(0));
    }
    CHECK(metal / double(field.size()) == Approx(relative_density(cell, tau)).epsilon(counting));
    CHECK(steepest < 1.001); // no distance changes faster than the way walked
  }
}

TEST_CASE("A honeycomb is sampled over its own rectangle only") {
  Catalogue catalogue = own_catalogue();
  CHECK_THROWS_WITH(
      boundary_distance(catalogue.cell("honeycomb_uniform_wall"), 0.1, 32),
      "cell 'honeycomb_uniform_wall' repeats in a box of 1.732 × 3 × 1 edges, and was sampled over one of "
      "1 × 1 × 1");
  CHECK_THROWS_WITH(boundary_distance(catalogue.cell("metal_foam_closed"), 0.1, 32),
                    "cell 'metal_foam_closed' is a foam: it has no solid of its own, only a density");
}

TEST_CASE("No point of the surface lies nearer than the distance says") {
  const int n = 100;
  struct Form {
    SheetSurface surface;
    double (*value)(const CellPoint&);
  };
  for (const Form& form : {Form{SheetSurface::gyroid, gyroid_value}, Form{SheetSurface::diamond, diamond_value}}) {
    const auto cloud = surface_points(form.value, n);
    std::mt19937 generator(7);
    std::uniform_real_distribution<double> anywhere(0, 1);
    int near = 0;
    for (int i = 0; i < 300; ++i) {
      const CellPoint p{anywhere(generator), anywhere(generator), anywhere(generator)};
      const double distance = distance_to_level(form.surface, 0, p);
      const double to_cloud = distance_to_cloud(cloud, p);
      // Some point of the cloud lies within one grid cell's diagonal of every foot.
      CHECK(to_cloud <= distance + std::sqrt(3.0) / n);
      if (to_cloud < 0.11) {
        CHECK(distance <= to_cloud + 1e-6);
        ++near;
      }
    }
    CHECK(near > 150);
  }
}

TEST_CASE("The solid joins opposite faces of the cell") {
  for (const auto& lattice : sample_lattices::all()) {
    CAPTURE(lattice.name);
    CHECK(connects_opposite_faces(CellSkeleton::of_struts(lattice.struts), 0.05, 100));
  }
  CHECK(connects_opposite_faces(CellSkeleton::of_surface(SheetSurface::gyroid), 0.05, 80));
}

TEST_CASE("A lattice with a gap does not join opposite faces") {
  const std::vector<Strut> struts{{{0, 0, 0}, {1, 0, 0}}, {{0, 0, 0}, {0, 1, 0}}, {{0, 0, 0}, {0, 0, 0.8}}};
  // A gap of 0.2 is bridged by the two balls only when the bars are thicker than that.
  CHECK(connects_opposite_faces(CellSkeleton::of_struts(struts), 0.25, 64));
  CHECK_FALSE(connects_opposite_faces(CellSkeleton::of_struts(struts), 0.1, 64));
}

TEST_CASE("A solid that cannot be sampled is refused with its numbers") {
  CHECK_THROWS_WITH(sheet_surface("helicoid"),
                    "no solid is known for a 'helicoid' surface; known: gyroid, diamond, primitive, iwp");
  const auto skeleton = CellSkeleton::of_struts(sample_lattices::bcc());
  CHECK_THROWS_WITH(sampled_volume_fractions(skeleton, std::vector{0.02}, 100),
                    "size ratio 0.02 cannot be sampled with 100 cells along the edge; expected 0.04 to 0.76");
  CHECK_THROWS_AS(CellSkeleton::of_struts({}), OutOfDomain);
  CHECK_THROWS_AS(CellSkeleton::of_struts({{{0.5, 0.5, 0.5}, {0.5, 0.5, 0.5}}}), OutOfDomain);
  UnitCell foam;
  foam.id = "metal_foam";
  foam.cell_class = CellClass::foam;
  CHECK_THROWS_WITH(CellSkeleton::of_cell(foam), "cell 'metal_foam' is neither of struts nor of a sheet");
}
