#include "lattice_body/body_sizes.hpp"

#include "crushwright/errors.hpp"
#include "lattice_body/cell_metal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace crushwright {
namespace {

constexpr int places = 11; // along each edge of the box

/// Triangles of the marching tetrahedra over the surface's area in squares of the spacing, as counted on the
/// catalogue's cells (docs/method/lattice_mesh.md).
constexpr double triangles_per_square = 9.5;

template <class Visitor>
void visit_places(const LatticeSolid& solid, const Visitor& visitor) {
  for (int z = 0; z < places; ++z)
    for (int y = 0; y < places; ++y)
      for (int x = 0; x < places; ++x) {
        const std::array<int, 3> at{x, y, z};
        std::array<double, 3> point{};
        for (std::size_t axis = 0; axis < 3; ++axis)
          point[axis] = solid.box.low[axis] + at[axis] * (solid.box.high[axis] - solid.box.low[axis]) / (places - 1);
        if (!solid.outer || solid.outer(point) <= 0)
          visitor(point);
      }
}

double smallest_size(const LatticeSolid& solid) {
  double smallest = std::numeric_limits<double>::infinity();
  visit_places(solid, [&](const auto& point) { smallest = std::min(smallest, solid.size(point)); });
  if (!std::isfinite(smallest)) // a thin body between all those places
    smallest = solid.size({0.5 * (solid.box.low[0] + solid.box.high[0]), 0.5 * (solid.box.low[1] + solid.box.high[1]),
                           0.5 * (solid.box.low[2] + solid.box.high[2])});
  if (!(smallest > 0))
    throw OutOfDomain(fmt::format("{}: the {} is {:g} mm at its least; it has to be over 0", solid.cell.name,
                                  solid.cell.size_name, 1e3 * smallest));
  return smallest;
}

bool is_walled(const UnitCell& cell) {
  return cell.cell_class != CellClass::strut && cell.cell_class != CellClass::skeletal;
}

double thinnest(const LatticeSolid& solid) {
  return thinnest_factor(solid.cell) * smallest_size(solid);
}

/// Area of the metal's surface over the volume of its cells [1/m]. Of walls and bars grown alike about a skeleton it
/// is the derivative of the volume by the half size, exactly; of plates and networks it is up to a third too small.
double area_density(const LatticeSolid& solid, double size) {
  const double ratio = size / solid.placement.cell_edge;
  double slope = 0;
  for (std::size_t power = solid.cell.true_density_coefficients.size(); power > 0; --power)
    slope = slope * ratio + double(power) * solid.cell.true_density_coefficients[power - 1];
  return 2 * slope / solid.placement.cell_edge;
}

} // namespace

std::string thinnest_part(const LatticeSolid& solid) {
  const double part = thinnest(solid);
  if (solid.with_skin && solid.inset / std::numbers::sqrt3 < part / (is_walled(solid.cell) ? std::numbers::sqrt3 : 3))
    return fmt::format("the skin of {:.4g} mm", 1e3 * solid.inset);
  return fmt::format("the {} of {:.4g} mm", solid.cell.size_name, 1e3 * part);
}

double coarsest_spacing(const LatticeSolid& solid) {
  const double part = thinnest(solid);
  const double spacing = is_walled(solid.cell) ? part / std::numbers::sqrt3 : part / 3;
  return solid.with_skin ? std::min(spacing, solid.inset / std::numbers::sqrt3) : spacing;
}

double advised_spacing(const LatticeSolid& solid) {
  return std::min(coarsest_spacing(solid), thinnest(solid) / (is_walled(solid.cell) ? 4 : 8));
}

double densest_triangles(const LatticeSolid& solid, double spacing) {
  double densest = 0;
  visit_places(solid,
               [&](const auto& point) { densest = std::max(densest, area_density(solid, solid.size(point))); });
  return triangles_per_square * densest / (spacing * spacing);
}

double expected_triangles(const LatticeSolid& solid, double spacing) {
  double volume = 1;
  for (std::size_t axis = 0; axis < 3; ++axis)
    volume *= solid.box.high[axis] - solid.box.low[axis];
  double area = 0;
  visit_places(solid, [&](const auto& point) { area += area_density(solid, solid.size(point)); });
  return triangles_per_square * area * volume / (places * places * places) / (spacing * spacing);
}

} // namespace crushwright
