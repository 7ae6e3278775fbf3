#include "crushwright/cell_curve.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

constexpr std::size_t points = CurveShape::points;
constexpr std::size_t peak = CurveShape::efficiency_point;
using Values = std::array<double, points>;

/// Where the points between rise and efficiency strain lie: closer where the branch bends.
constexpr std::array<double, peak - 2> fraction_before = {0.30, 0.50, 0.68, 0.81, 0.90, 0.96};
/// Gap to packing at the points beyond, over the gap at the efficiency strain.
constexpr std::array<double, points - peak - 1> gap_beyond = {0.84, 0.67, 0.50, 0.34, 0.21, 0.11, 0.05};

/// Where the first inner point lies when there is no rise to end there, over the efficiency strain.
constexpr double first_point_without_rise = 0.15;

constexpr double window_from = 0.20;
constexpr double window_to = 0.40;
constexpr double greatest_steepness = 30;

struct Window {
  double from;
  double to;
  double middle() const { return (from + to) / 2; }
};

Window plateau_window(double efficiency_strain) {
  return efficiency_strain < window_to ? Window{efficiency_strain / 2, efficiency_strain}
                                       : Window{window_from, window_to};
}

[[noreturn]] void refuse(const char* name, double value, const char* range, double limit) {
  throw OutOfDomain(fmt::format("{} is {}; it must be {} {}", name, value, range, limit));
}

void check(const CurveShapeInput& in) {
  if (!(in.packing_strain < 1)) {
    refuse("packing strain", in.packing_strain, "below", 1);
  }
  if (!(in.efficiency_strain > 0.05)) {
    refuse("efficiency strain", in.efficiency_strain, "above", 0.05);
  }
  if (!(in.packing_strain > in.efficiency_strain)) {
    refuse("packing strain", in.packing_strain, "above the efficiency strain", in.efficiency_strain);
  }
  const double latest_rise = std::min(window_from, in.efficiency_strain / 2);
  if (!(in.rise_strain >= 0)) {
    refuse("rise strain", in.rise_strain, "at least", 0);
  }
  if (!(in.rise_strain < latest_rise)) {
    refuse("rise strain", in.rise_strain, "below the start of the plateau window,", latest_rise);
  }
  if (!(in.plateau_slope >= 0) || !std::isfinite(in.plateau_slope)) {
    refuse("plateau slope", in.plateau_slope, "finite and at least", 0);
  }
  if (!(in.steepness >= 2)) {
    refuse("steepness", in.steepness, "at least", 2);
  }
  if (!(in.steepness <= greatest_steepness)) {
    refuse("steepness", in.steepness, "at most", greatest_steepness);
  }
}

Values strains_of(const CurveShapeInput& in) {
  Values strain{};
  strain[1] = in.rise_strain > 0 ? in.rise_strain : first_point_without_rise * in.efficiency_strain;
  for (std::size_t i = 0; i < fraction_before.size(); ++i) {
    strain[2 + i] = strain[1] + (in.efficiency_strain - strain[1]) * fraction_before[i];
  }
  strain[peak] = in.efficiency_strain;
  const double gap = in.packing_strain - in.efficiency_strain;
  for (std::size_t i = 0; i < gap_beyond.size(); ++i) {
    strain[peak + 1 + i] = in.packing_strain - gap * gap_beyond[i];
  }
  return strain;
}

/// x^p; whole exponents, the usual case, by multiplication: several times faster than std::pow.
double power(double x, double exponent) {
  auto whole = static_cast<unsigned>(exponent);
  if (static_cast<double>(whole) != exponent) {
    return std::pow(x, exponent);
  }
  double result = 1;
  for (; whole > 0; whole >>= 1U) {
    if ((whole & 1U) != 0) {
      result *= x;
    }
    x *= x;
  }
  return result;
}

Values densification_of(const Values& strain, const CurveShapeInput& in) {
  Values branch{};
  for (std::size_t i = 1; i < points; ++i) {
    const double x = strain[i] / in.packing_strain;
    branch[i] = power(x, in.steepness) / (1 - x);
  }
  return branch;
}

double segment_area(const Values& strain, const Values& value, std::size_t end) {
  return (strain[end] - strain[end - 1]) * (value[end] + value[end - 1]) / 2;
}

double area_to(const Values& strain, const Values& value, double at) {
  double area = 0;
  std::size_t i = 1;
  for (; i < points && strain[i] <= at; ++i) {
    area += segment_area(strain, value, i);
  }
  if (i == points) {
    return area;
  }
  const double part = at - strain[i - 1];
  const double slope = (value[i] - value[i - 1]) / (strain[i] - strain[i - 1]);
  return area + part * (value[i - 1] + slope * part / 2);
}

/// The curve is fixed + a * scaled; both polylines on the same strains, mean over the window 1 and 0.
struct Parts {
  Values fixed{};
  Values scaled{};
};

Parts parts_of(const CurveShapeInput& in, const Values& strain, const Values& branch) {
  const Window window = plateau_window(in.efficiency_strain);
  const double mean =
      (area_to(strain, branch, window.to) - area_to(strain, branch, window.from)) / (window.to - window.from);
  Parts parts;
  for (std::size_t i = in.rise_strain > 0 ? 1 : 0; i < points; ++i) {
    parts.fixed[i] = 1 + in.plateau_slope * (strain[i] - window.middle());
    parts.scaled[i] = branch[i] - mean;
  }
  return parts;
}

[[noreturn]] void refuse_branch(const CurveShapeInput& in) {
  throw OutOfDomain(
      fmt::format("no densification branch of steepness {} that packs at strain {} has its greatest "
                  "efficiency at strain {} (plateau slope {}); raise the steepness or lower the packing "
                  "strain",
                  in.steepness, in.packing_strain, in.efficiency_strain, in.plateau_slope));
}

/// The a that makes W/σ stationary at the efficiency strain: the smaller positive root of the quadratic in
/// cell_curve.md, written so that nothing cancels and the leading coefficient may vanish.
double branch_factor(const CurveShapeInput& in, const Values& strain, const Values& branch, const Parts& parts) {
  const double x = in.efficiency_strain / in.packing_strain;
  const double branch_slope = branch[peak] * (in.steepness / x + 1 / (1 - x)) / in.packing_strain;
  const double fixed_area = area_to(strain, parts.fixed, in.efficiency_strain);
  const double scaled_area = area_to(strain, parts.scaled, in.efficiency_strain);
  const double fixed = parts.fixed[peak];
  const double scaled = parts.scaled[peak];
  const double quadratic = scaled * scaled - scaled_area * branch_slope;
  const double linear = 2 * fixed * scaled - fixed_area * branch_slope - scaled_area * in.plateau_slope;
  const double constant = fixed * fixed - fixed_area * in.plateau_slope;
  const double discriminant = linear * linear - 4 * quadratic * constant;
  if (!(discriminant >= 0) || !(constant > 0)) {
    refuse_branch(in);
  }
  const double divisor = std::sqrt(discriminant) - linear;
  if (!(divisor > 0)) {
    refuse_branch(in);
  }
  return 2 * constant / divisor;
}

bool efficiency_is_greatest_at_peak(const CurveShape& shape) {
  const double energy_at_peak = area_to(shape.strain, shape.ratio, shape.strain[peak]);
  double energy = 0;
  for (std::size_t i = 1; i < points; ++i) {
    energy += segment_area(shape.strain, shape.ratio, i);
    if (i != peak && energy * shape.ratio[peak] >= energy_at_peak * shape.ratio[i]) {
      return false;
    }
  }
  return true;
}

double ratio_at(const CurveShape& shape, double strain) {
  std::size_t i = 1;
  while (i + 1 < points && shape.strain[i] < strain) {
    ++i;
  }
  const double slope = (shape.ratio[i] - shape.ratio[i - 1]) / (shape.strain[i] - shape.strain[i - 1]);
  return shape.ratio[i - 1] + slope * (strain - shape.strain[i - 1]);
}

void must_be_positive(const char* name, double value) {
  if (!(value > 0) || !std::isfinite(value)) {
    throw OutOfDomain(fmt::format("{} is {} Pa; it must be finite and above 0", name, value));
  }
}

} // namespace

CurveShape curve_shape(const CurveShapeInput& input) {
  check(input);
  CurveShape shape{};
  shape.strain = strains_of(input);
  const Values branch = densification_of(shape.strain, input);
  const Parts parts = parts_of(input, shape.strain, branch);
  const double factor = branch_factor(input, shape.strain, branch, parts);
  for (std::size_t i = 0; i < points; ++i) {
    shape.ratio[i] = parts.fixed[i] + factor * parts.scaled[i];
  }
  const std::size_t start = input.rise_strain > 0 ? 1 : 0;
  if (!(shape.ratio[start] > 0)) {
    throw OutOfDomain(
        fmt::format("plateau slope {} leaves {:.4g} times the plateau stress where the plateau begins; it "
                    "must stay above 0",
                    input.plateau_slope, shape.ratio[start]));
  }
  if (!efficiency_is_greatest_at_peak(shape)) {
    refuse_branch(input);
  }
  return shape;
}

StressStrain stress_strain(const CurveShape& shape, double plateau_stress, double elastic_modulus,
                           double first_peak_ratio) {
  must_be_positive("plateau stress", plateau_stress);
  if (!(first_peak_ratio >= 0) || !std::isfinite(first_peak_ratio)) {
    refuse("first peak ratio", first_peak_ratio, "finite and at least", 0);
  }
  StressStrain curve;
  double shown_to = -1;
  const auto add = [&](double strain, double ratio) {
    curve.strain.push_back(strain);
    curve.stress.push_back(ratio * plateau_stress);
    shown_to = strain;
  };
  if (first_peak_ratio > 1) {
    must_be_positive("elastic modulus", elastic_modulus);
    const double peak_strain = first_peak_ratio * plateau_stress / elastic_modulus;
    const double start = shape.ratio[0] > 0 ? 0 : shape.strain[1];
    // Half as far down again as up: the fall is never a jump, and never reaches into the window the mean is taken
    // over.
    const double back_on_plateau = std::max(start, 1.5 * peak_strain);
    const double latest = plateau_window(shape.strain[peak]).from;
    if (!(back_on_plateau <= latest)) {
      throw OutOfDomain(
          fmt::format("elastic modulus {} Pa puts the first peak at strain {}; with plateau stress {} Pa "
                      "and first peak ratio {} it must be at least {:.0f} Pa",
                      elastic_modulus, peak_strain, plateau_stress, first_peak_ratio,
                      1.5 * first_peak_ratio * plateau_stress / latest));
    }
    add(0, 0);
    add(peak_strain, first_peak_ratio);
    add(back_on_plateau, ratio_at(shape, back_on_plateau));
  }
  for (std::size_t i = 0; i < points; ++i) {
    if (shape.strain[i] > shown_to) {
      add(shape.strain[i], shape.ratio[i]);
    }
  }
  return curve;
}

} // namespace crushwright
