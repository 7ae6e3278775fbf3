#include "unit_cell/density_fit.hpp"

#include "crushwright/errors.hpp"

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
constexpr double cubic_is_enough = 1e-3;

/// Sizes to try; a nominal density far above the limit rules a size out before its solid is sampled.
std::vector<double> candidate_sizes(const CellSkeleton& skeleton) {
  std::vector<double> sizes;
  for (int i = 0;; ++i) {
    const double tau = smallest_size_ratio + size_ratio_step * i;
    const double slender = 0.25 * std::numbers::pi * skeleton.strut_length() * tau * tau;
    // Either surface has more than three times the area of a cell's face; struts overlap by less than 45 %.
    const bool too_dense = skeleton.is_sheet() ? 3 * tau > 1.1 * highest_density : slender > 1.8 * highest_density;
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

double largest_error(const std::vector<double>& coefficients, const std::vector<DensitySample>& samples) {
  double largest = 0;
  for (const DensitySample& sample : samples)
    largest = std::max(largest,
                       std::abs(evaluate_density(coefficients, sample.size_ratio) - sample.density) / sample.density);
  return largest;
}

DensityFit fit_of(std::vector<double> coefficients, std::vector<DensitySample> samples, std::string method) {
  if (samples.empty())
    throw OutOfDomain(fmt::format("the solid is denser than {} at every size ratio from {} on", highest_density,
                                  smallest_size_ratio));
  DensityFit fit;
  fit.size_ratio_range = {samples.front().size_ratio, samples.back().size_ratio};
  fit.largest_error = largest_error(coefficients, samples);
  fit.coefficients = std::move(coefficients);
  fit.samples = std::move(samples);
  fit.method = std::move(method);
  return fit;
}

DensityFit strut_fit(const CellSkeleton& skeleton, std::vector<DensitySample> samples) {
  const double slender_limit = 0.25 * std::numbers::pi * skeleton.strut_length();
  std::vector<double> coefficients = fitted_coefficients({0, slender_limit, 0}, {false, false, true}, samples);
  if (largest_error(coefficients, samples) > cubic_is_enough)
    coefficients = fitted_coefficients({0, slender_limit, 0, 0}, {false, false, true, true}, samples);
  return fit_of(std::move(coefficients), std::move(samples),
                "volume of the union of round struts, sampled on two grids and extrapolated");
}

DensityFit sheet_fit(std::vector<DensitySample> samples) {
  std::vector<double> coefficients = fitted_coefficients({0, 0, 0}, {true, false, true}, samples);
  return fit_of(std::move(coefficients), std::move(samples),
                "volume within half a wall of the middle surface, sampled on two grids and extrapolated");
}

struct HoneycombForm {
  double nominal_slope;
  double quadratic;
  const char* walls;
  const char* edge;
};

// Open hexagon over whole hexagon. Uniform wall t, width across flats S: (1 - t/S)². Doubled walls (2t on two
// opposite sides): area of the hexagon with half widths S/2 - t once and S/2 - t/2 twice. S = √3 × side.
constexpr double root3 = std::numbers::sqrt3;
constexpr std::array<HoneycombForm, 4> honeycomb_forms{{
    {2 / root3, -1.0 / 3, "all walls of one thickness", "side of the hexagon"},
    {2, -1, "all walls of one thickness", "width across flats"},
    {8 / (3 * root3), -4.0 / 9, "one wall of three doubled", "side of the hexagon"},
    {8.0 / 3, -4.0 / 3, "one wall of three doubled", "width across flats"},
}};

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
  const auto form = std::find_if(honeycomb_forms.begin(), honeycomb_forms.end(), [&](const HoneycombForm& candidate) {
    return std::abs(candidate.nominal_slope - nominal_slope) < 2e-3;
  });
  if (form == honeycomb_forms.end())
    throw OutOfDomain(fmt::format("no regular honeycomb has a nominal density of {} times the wall's size ratio; "
                                  "expected 1.1547, 2, 1.5396 or 2.6667",
                                  nominal_slope));
  const std::vector<double> coefficients{form->nominal_slope, form->quadratic};
  std::vector<DensitySample> samples;
  for (int i = 0;; ++i) {
    const double tau = 0.001 * (i < 9 ? 1 + i : 10 * (i - 8));
    const double density = evaluate_density(coefficients, tau);
    if (density > highest_density)
      break;
    samples.push_back({tau, density, 0});
  }
  return fit_of(coefficients, std::move(samples),
                fmt::format("closed form, one minus the open part of a regular hexagon; {}, wall over {}",
                            form->walls, form->edge));
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
  case CellClass::foam:
    break;
  }
  throw OutOfDomain(fmt::format("cell '{}' is a foam: its density is stated directly", cell.id));
}

} // namespace crushwright
