#include "unit_cell/density_fit.hpp"

#include "crushwright/errors.hpp"
#include "unit_cell/body_volume.hpp"
#include "unit_cell/honeycomb_walls.hpp"
#include "unit_cell/plate_pieces.hpp"
#include "unit_cell/skeletal_level.hpp"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crushwright {
namespace {

constexpr double smallest_size_ratio = 0.02;
constexpr double size_ratio_step = 0.01;
constexpr double largest_size_ratio = 0.60;
constexpr double highest_density = 0.5;
constexpr double smallest_neck = 0.04; // below it the network hangs by a thread (docs/method/unit_cell.md)
constexpr double cubic_is_enough = 1e-3;

/// Sizes to try; a nominal density far above the limit rules a size out before its solid is sampled.
std::vector<double> candidate_sizes(const CellSkeleton& skeleton) {
  std::vector<double> sizes;
  for (int i = 0;; ++i) {
    const double tau = smallest_size_ratio + size_ratio_step * i;
    const double slender = 0.25 * std::numbers::pi * skeleton.strut_length() * tau * tau;
    // Every surface has more than 2.3 times the area of a cell's face; struts overlap by less than 45 %.
    const bool too_dense = skeleton.is_sheet() ? 2.3 * tau > 1.1 * highest_density : slender > 1.8 * highest_density;
    if (tau > largest_size_ratio + 1e-9 || too_dense)
      return sizes;
    sizes.push_back(tau);
  }
}

std::vector<DensitySample> sampled(const CellSkeleton& skeleton) {
  const std::vector<double> sizes = candidate_sizes(skeleton);
  const std::vector<VolumeFraction> fractions = volume_fractions(skeleton, sizes);
  std::vector<DensitySample> samples;
  for (std::size_t i = 0; i < sizes.size() && fractions[i].value <= highest_density; ++i)
    samples.push_back({sizes[i], fractions[i].value, fractions[i].spread});
  return samples;
}

constexpr int cells_across_a_plate = 4;
constexpr int cells_across_a_neck = 12;
constexpr int fewest_cells = 96;

int even_cells(double across, double thinnest) {
  const int wanted = static_cast<int>(std::ceil(across / thinnest - 1e-9));
  return std::max(fewest_cells, wanted + wanted % 2);
}

/// One solid after another, from the given size upwards, while the density stays within the limit.
/// @param thinnest  thinnest part of the solid over its size
std::vector<DensitySample> sampled_bodies(UnitCell cell, double first, double last, double across, double thinnest) {
  cell.size_ratio_range = {0, 1};
  std::vector<DensitySample> samples;
  for (int i = 0;; ++i) {
    const double tau = first + size_ratio_step * i;
    if (tau > last + 1e-9)
      return samples;
    const VolumeFraction fraction = body_fraction(*solid_body(cell, tau), even_cells(across, thinnest * tau));
    if (fraction.value > highest_density + 1e-6)
      return samples;
    samples.push_back({tau, fraction.value, fraction.spread});
  }
}

double largest_error(const std::vector<double>& coefficients, double constant,
                     const std::vector<DensitySample>& samples) {
  double largest = 0;
  for (const DensitySample& sample : samples) {
    const double fitted = constant + evaluate_density(coefficients, sample.size_ratio);
    largest = std::max(largest, std::abs(fitted - sample.density) / sample.density);
  }
  return largest;
}

DensityFit fit_of(std::vector<double> coefficients, std::vector<DensitySample> samples, std::string method,
                  double constant = 0) {
  if (samples.empty())
    throw OutOfDomain(fmt::format("the solid is denser than {} at every size ratio from {} on", highest_density,
                                  smallest_size_ratio));
  DensityFit fit;
  fit.size_ratio_range = {samples.front().size_ratio, samples.back().size_ratio};
  fit.constant = constant;
  fit.largest_error = largest_error(coefficients, constant, samples);
  fit.coefficients = std::move(coefficients);
  fit.samples = std::move(samples);
  fit.method = std::move(method);
  return fit;
}

DensityFit strut_fit(const CellSkeleton& skeleton, std::vector<DensitySample> samples) {
  const double slender_limit = 0.25 * std::numbers::pi * skeleton.strut_length();
  std::vector<double> coefficients = fitted_coefficients({0, slender_limit, 0}, {false, false, true}, samples);
  if (largest_error(coefficients, 0, samples) > cubic_is_enough)
    coefficients = fitted_coefficients({0, slender_limit, 0, 0}, {false, false, true, true}, samples);
  return fit_of(std::move(coefficients), std::move(samples),
                "volume of the union of round struts, sampled on two grids and extrapolated");
}

DensityFit sheet_fit(std::vector<DensitySample> samples) {
  std::vector<double> coefficients = fitted_coefficients({0, 0, 0}, {true, false, true}, samples);
  return fit_of(std::move(coefficients), std::move(samples),
                "volume within half a wall of the middle surface, sampled on two grids and extrapolated");
}

DensityFit plate_fit(const UnitCell& cell) {
  double slender_limit = 0, thinnest = 1;
  for (const Plate& plate : cell.plates) {
    slender_limit += plate_area(plate) * plate.thickness_factor;
    thinnest = std::min(thinnest, plate.thickness_factor);
  }
  std::vector<DensitySample> samples =
      sampled_bodies(cell, smallest_size_ratio, largest_size_ratio, cells_across_a_plate, thinnest);
  std::vector<double> coefficients = fitted_coefficients({slender_limit, 0, 0}, {false, true, true}, samples);
  return fit_of(std::move(coefficients), std::move(samples),
                "volume of the union of plates, sampled on two grids and extrapolated");
}

DensityFit skeletal_fit(const UnitCell& cell) {
  std::vector<DensitySample> samples =
      sampled_bodies(cell, smallest_neck, neck_at_half_density(sheet_surface(cell.surface)), cells_across_a_neck, 1);
  const std::vector<double> fitted = fitted_powers({0, 2, 3, 4, 5}, samples);
  return fit_of({0, fitted[1], fitted[2], fitted[3], fitted[4]}, std::move(samples),
                "volume on one side of the level surface with that neck, sampled on two grids and extrapolated",
                fitted[0]);
}

} // namespace

std::vector<double> fitted_coefficients(const std::vector<double>& given, const std::vector<bool>& open,
                                        const std::vector<DensitySample>& samples) {
  const auto unknowns = std::count(open.begin(), open.end(), true);
  const auto rows = static_cast<Eigen::Index>(samples.size());
  if (unknowns == 0 || unknowns > rows || open.size() != given.size())
    throw OutOfDomain(fmt::format("{} samples cannot settle {} coefficients of {}", rows, unknowns, given.size()));
  Eigen::MatrixXd matrix(rows, unknowns);
  Eigen::VectorXd right = Eigen::VectorXd::Ones(rows);
  for (Eigen::Index row = 0; row < rows; ++row) {
    const DensitySample& sample = samples[static_cast<std::size_t>(row)];
    Eigen::Index column = 0;
    for (std::size_t k = 0; k < given.size(); ++k) {
      const double term = std::pow(sample.size_ratio, static_cast<double>(k + 1)) / sample.density;
      if (open[k])
        matrix(row, column++) = term;
      else
        right(row) -= given[k] * term;
    }
  }
  const Eigen::VectorXd solution = matrix.colPivHouseholderQr().solve(right);
  std::vector<double> coefficients = given;
  Eigen::Index column = 0;
  for (std::size_t k = 0; k < given.size(); ++k)
    if (open[k])
      coefficients[k] = solution(column++);
  return coefficients;
}

std::vector<double> fitted_powers(const std::vector<int>& powers, const std::vector<DensitySample>& samples) {
  if (powers.empty() || powers.size() > samples.size())
    throw OutOfDomain(fmt::format("{} samples cannot settle {} powers", samples.size(), powers.size()));
  Eigen::MatrixXd matrix(static_cast<Eigen::Index>(samples.size()), static_cast<Eigen::Index>(powers.size()));
  for (Eigen::Index row = 0; row < matrix.rows(); ++row)
    for (Eigen::Index column = 0; column < matrix.cols(); ++column) {
      const DensitySample& sample = samples[static_cast<std::size_t>(row)];
      matrix(row, column) = std::pow(sample.size_ratio, powers[static_cast<std::size_t>(column)]) / sample.density;
    }
  const Eigen::VectorXd solution = matrix.colPivHouseholderQr().solve(Eigen::VectorXd::Ones(matrix.rows()));
  return {solution.begin(), solution.end()};
}

double evaluate_density(const std::vector<double>& coefficients, double size_ratio) {
  double density = 0;
  for (auto coefficient = coefficients.rbegin(); coefficient != coefficients.rend(); ++coefficient)
    density = (density + *coefficient) * size_ratio;
  return density;
}

DensityFit density_of_solid(const CellSkeleton& skeleton) {
  std::vector<DensitySample> samples = sampled(skeleton);
  return skeleton.is_sheet() ? sheet_fit(std::move(samples)) : strut_fit(skeleton, std::move(samples));
}

DensityFit density_of_honeycomb(double nominal_slope) {
  const HoneycombForm& form = honeycomb_form(nominal_slope);
  const std::vector<double> coefficients{form.nominal_slope, form.quadratic};
  std::vector<DensitySample> samples;
  for (int i = 0;; ++i) {
    const double tau = 0.001 * (i < 9 ? 1 + i : 10 * (i - 8));
    const double density = evaluate_density(coefficients, tau);
    if (density > highest_density)
      break;
    samples.push_back({tau, density, 0});
  }
  return fit_of(coefficients, std::move(samples),
                fmt::format("closed form, one minus the open part of a regular hexagon; {}, wall over {}", form.walls,
                            form.edge));
}

DensityFit density_of_cell(const UnitCell& cell) {
  switch (cell.cell_class) {
  case CellClass::strut:
  case CellClass::sheet:
    return density_of_solid(CellSkeleton::of_cell(cell));
  case CellClass::honeycomb:
    if (cell.nominal_density_coefficients.empty())
      throw OutOfDomain(fmt::format("cell '{}' has no nominal density, which tells its walls", cell.id));
    return density_of_honeycomb(cell.nominal_density_coefficients.front());
  case CellClass::plate:
    return plate_fit(cell);
  case CellClass::skeletal:
    return skeletal_fit(cell);
  case CellClass::solid:
    throw OutOfDomain(fmt::format("cell '{}' is a solid: its density is that of its mesh", cell.id));
  case CellClass::foam:
    break;
  }
  throw OutOfDomain(fmt::format("cell '{}' is a foam: its density is stated directly", cell.id));
}

} // namespace crushwright
