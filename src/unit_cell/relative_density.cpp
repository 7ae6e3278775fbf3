#include "crushwright/errors.hpp"
#include "crushwright/unit_cell.hpp"

#include <cmath>
#include <fmt/format.h>

namespace crushwright {

namespace {

struct ValueAndSlope {
  double value;
  double slope;
};

ValueAndSlope polynomial(const std::vector<double>& coefficients, double ratio) {
  double value = 0;
  double slope = 0;
  for (auto coefficient = coefficients.rbegin(); coefficient != coefficients.rend(); ++coefficient) {
    slope = slope * ratio + value;
    value = value * ratio + *coefficient;
  }
  return {value * ratio, slope * ratio + value};
}

ValueAndSlope true_density(const UnitCell& cell, double ratio) {
  ValueAndSlope density = polynomial(cell.true_density_coefficients, ratio);
  density.value += cell.true_density_constant;
  return density;
}

void require_sized_cell(const UnitCell& cell) {
  if (cell.true_density_coefficients.empty()) {
    throw OutOfDomain(
        fmt::format("{} has no strut or wall to be sized: state its relative density directly.", cell.name));
  }
}

/// A solid has the one size of its mesh.
double size_of_solid(const UnitCell& cell, double relative_density) {
  const double meshed = cell.true_density_coefficients.front();
  if (!(std::abs(relative_density / meshed - 1) <= solid_density_tolerance)) {
    throw OutOfDomain(
        fmt::format("{}: its mesh has the relative density {:.4g}, and {:.4g} was asked for. A mesh has "
                    "one size: state its own density, to {:g} %, or change the mesh.",
                    cell.name, meshed, relative_density, 100 * solid_density_tolerance));
  }
  return 1;
}

} // namespace

bool is_sized(const UnitCell& cell) {
  return cell.cell_class != CellClass::foam && cell.cell_class != CellClass::solid;
}

double relative_density(const UnitCell& cell, double size_ratio, DensityBasis basis) {
  require_sized_cell(cell);
  if (!cell.size_ratio_range.contains(size_ratio)) {
    throw OutOfDomain(fmt::format("{}: {} over {} is {:g}; the catalogue entry holds from {:g} to {:g}.", cell.name,
                                  cell.size_name, cell.edge_name, size_ratio, cell.size_ratio_range.low,
                                  cell.size_ratio_range.high));
  }
  // What has no sum of parts has no nominal density of its own.
  const bool nominal = basis == DensityBasis::nominal && !cell.nominal_density_coefficients.empty();
  const double density =
      (nominal ? polynomial(cell.nominal_density_coefficients, size_ratio) : true_density(cell, size_ratio)).value;
  if (!(density > 0 && density < 1)) {
    throw OutOfDomain(fmt::format("{}: {} over {} of {:g} gives the {} relative density {:g}, outside 0 to 1.",
                                  cell.name, cell.size_name, cell.edge_name, size_ratio, name_of(basis), density));
  }
  return density;
}

double size_ratio(const UnitCell& cell, double true_relative_density) {
  require_sized_cell(cell);
  if (cell.cell_class == CellClass::solid) {
    return size_of_solid(cell, true_relative_density);
  }
  double low = cell.size_ratio_range.low;
  double high = cell.size_ratio_range.high;
  const double least = true_density(cell, low).value;
  const double most = true_density(cell, high).value;
  // The ends of the range come back from relative_density() rounded; they still belong to it.
  const double rounding = 1e-12;
  if (!(true_relative_density >= least - rounding && true_relative_density <= most + rounding)) {
    throw OutOfDomain(
        fmt::format("{}: no {} gives the relative density {:g}; the catalogue entry holds from {:.4g} to "
                    "{:.4g}.",
                    cell.name, cell.size_name, true_relative_density, least, most));
  }
  // Newton's step where it stays inside the bracket, bisection otherwise: a layer of a structure asks thousands of
  // times.
  double ratio = 0.5 * (low + high);
  while (high - low > 1e-13) {
    const ValueAndSlope here = true_density(cell, ratio);
    const double excess = here.value - true_relative_density;
    (excess > 0 ? high : low) = ratio;
    const double newton = ratio - excess / here.slope;
    if (std::abs(newton - ratio) < 1e-14) {
      return newton;
    }
    ratio = newton > low && newton < high ? newton : 0.5 * (low + high);
  }
  return ratio;
}

double in_basis(const UnitCell& cell, double true_relative_density, DensityBasis basis) {
  if (basis != DensityBasis::nominal || cell.nominal_density_coefficients.empty()) {
    return true_relative_density;
  }
  return polynomial(cell.nominal_density_coefficients, size_ratio(cell, true_relative_density)).value;
}

} // namespace crushwright
