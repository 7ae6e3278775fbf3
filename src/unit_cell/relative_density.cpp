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

void require_sized_cell(const UnitCell& cell) {
  if (cell.true_density_coefficients.empty()) {
    throw OutOfDomain(
        fmt::format("{} has no strut or wall to be sized: state its relative density directly.", cell.name));
  }
}

} // namespace

double relative_density(const UnitCell& cell, double size_ratio, DensityBasis basis) {
  require_sized_cell(cell);
  if (!cell.size_ratio_range.contains(size_ratio)) {
    throw OutOfDomain(fmt::format("{}: {} over {} is {:g}; the catalogue entry holds from {:g} to {:g}.", cell.name,
                                  cell.size_name, cell.edge_name, size_ratio, cell.size_ratio_range.low,
                                  cell.size_ratio_range.high));
  }
  const bool nominal = basis == DensityBasis::nominal;
  const double density =
      polynomial(nominal ? cell.nominal_density_coefficients : cell.true_density_coefficients, size_ratio).value;
  if (!(density > 0 && density < 1)) {
    throw OutOfDomain(fmt::format("{}: {} over {} of {:g} gives the {} relative density {:g}, outside 0 to 1.",
                                  cell.name, cell.size_name, cell.edge_name, size_ratio, name_of(basis), density));
  }
  return density;
}

double size_ratio(const UnitCell& cell, double true_relative_density) {
  require_sized_cell(cell);
  double low = cell.size_ratio_range.low;
  double high = cell.size_ratio_range.high;
  const double least = polynomial(cell.true_density_coefficients, low).value;
  const double most = polynomial(cell.true_density_coefficients, high).value;
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
    const ValueAndSlope here = polynomial(cell.true_density_coefficients, ratio);
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
