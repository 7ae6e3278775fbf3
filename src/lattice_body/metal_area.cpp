#include "lattice_body/metal_area.hpp"

#include "lattice_body/body_mesh.hpp"

#include <algorithm>

namespace crushwright {
namespace {

constexpr double most_triangles = 4e6; // some seconds and 300 MB

std::optional<double> meshed_area(const UnitCell& cell, double size_ratio) {
  const LatticeSolid solid = one_cell(cell, size_ratio, 1);
  const std::array<double, 3> box = solid.box.high;
  const auto area_at = [&](double spacing) {
    BodyMeshOptions options;
    options.spacing = spacing;
    return mesh_body(solid, options).surface / (box[0] * box[1] * box[2]);
  };
  const double coarsest = coarsest_spacing(solid);
  if (expected_triangles(solid, coarsest) > most_triangles)
    return std::nullopt;
  const double coarse = area_at(coarsest);
  if (expected_triangles(solid, 0.5 * coarsest) > most_triangles)
    return coarse;
  return coarse + (area_at(0.5 * coarsest) - coarse) * 4 / 3; // the error falls with the square of the spacing
}

} // namespace

std::optional<double> metal_area(const UnitCell& cell, double size_ratio) {
  if (!is_sized(cell))
    return std::nullopt;
  if (cell.cell_class != CellClass::strut && cell.cell_class != CellClass::sheet)
    return meshed_area(cell, size_ratio);
  double slope = 0;
  for (std::size_t power = cell.true_density_coefficients.size(); power > 0; --power)
    slope = slope * size_ratio + double(power) * cell.true_density_coefficients[power - 1];
  return 2 * slope;
}

} // namespace crushwright
