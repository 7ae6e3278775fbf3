#include "coupon/measured_laws.hpp"

#include "coupon/group_scatter.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr std::size_t fewest_densities = 3;
constexpr double widest_exponent = 1;  ///< half width of its interval
constexpr double widest_strain = 0.10; ///< half width of the densification line's band at the ends of its range
constexpr double exponent_doubt = 0.5; ///< by which a law's assumed exponent may be off

/// What a law is fitted to: one point per specimen.
struct LawData {
  std::vector<double> density, value;
  std::vector<std::size_t> owner, group;
  std::size_t groups = 0;
  bool enough() const { return groups >= fewest_densities; }
};

using Value = std::optional<double> (*)(const ReducedSpecimen&);

std::optional<double> plateau_stress(const ReducedSpecimen& specimen) {
  return specimen.quantities.plateau_stress;
}
std::optional<double> elastic_gradient(const ReducedSpecimen& specimen) {
  return specimen.elastic_gradient;
}
std::optional<double> quasi_elastic_gradient(const ReducedSpecimen& specimen) {
  return specimen.quantities.quasi_elastic_gradient;
}
std::optional<double> efficiency_strain(const ReducedSpecimen& specimen) {
  return specimen.quantities.efficiency_still_rising ? std::nullopt
                                                     : std::optional(specimen.quantities.efficiency_strain);
}

LawData law_data(const std::vector<ReducedSpecimen>& specimens, const std::vector<DensityGroup>& groups, Value value,
                 double over) {
  LawData data;
  for (const DensityGroup& group : groups) {
    if (!group.relative_density) {
      continue;
    }
    bool any = false;
    for (const std::size_t member : group.members) {
      if (const std::optional<double> found = value(specimens[member])) {
        data.density.push_back(*specimens[member].relative_density);
        data.value.push_back(*found / over);
        data.owner.push_back(member);
        data.group.push_back(data.groups);
        any = true;
      }
    }
    data.groups += any ? 1 : 0;
  }
  return data;
}

std::vector<double> logarithms(const std::vector<double>& values) {
  std::vector<double> result(values.size());
  std::transform(values.begin(), values.end(), result.begin(), [](double value) { return std::log(value); });
  return result;
}

void set_range(MeasuredLaw& law, const LawData& data) {
  const auto [low, high] = std::minmax_element(data.density.begin(), data.density.end());
  law.density_low = *low;
  law.density_high = *high;
}

/// A line by the groups' scatter, with what must be said about it.
LineFit weighted_line(const std::string& property, const LawData& data, const std::vector<double>& x,
                      const std::vector<double>& y, const std::vector<ReducedSpecimen>& specimens,
                      std::vector<std::string>& warnings) {
  const ScatterLine line = scatter_line({x, y, data.group, data.groups});
  if (!line.weighted && !line.lacks_fit) {
    warnings.push_back(fmt::format("{}: fewer than three specimens at some density, so that all are taken to scatter "
                                   "alike",
                                   property));
  }
  if (line.lacks_fit) {
    warnings.push_back(
        fmt::format("{}: the means of the densities lie further from the law than the specimens scatter; "
                    "its form does not fit well",
                    property));
  }
  for (const std::size_t odd : line.fit.outliers) {
    warnings.push_back(fmt::format("{}: specimen \"{}\" lies outside the law's scatter; it is kept", property,
                                   specimens[data.owner[odd]].facts.id));
  }
  return line.fit;
}

std::string too_few(std::size_t densities) {
  if (densities == 0) {
    return "no specimen has a relative density and this property";
  }
  if (densities == 1) {
    return "all specimens have one density; a law over density needs three densities or more";
  }
  return "there are two densities; a line through two says nothing of its own error, so three or more are needed";
}

/// C from specimens of one density with an exponent that is told.
void set_assumed(MeasuredLaw& law, const LawData& data, double exponent, std::vector<std::string>& warnings) {
  if (data.value.size() < 2) {
    law.refusal = "one specimen; its scatter is not known";
    return;
  }
  std::vector<double> logs(data.value.size());
  for (std::size_t i = 0; i < logs.size(); ++i) {
    logs[i] = std::log(data.value[i]) - exponent * std::log(data.density[i]);
  }
  const SampleSummary summary = summarise(logs);
  law.exponent_assumed = true;
  law.exponent = law.exponent_low = law.exponent_high = exponent;
  law.coefficient = std::exp(summary.mean);
  law.coefficient_low = std::exp(*summary.mean_low);
  law.coefficient_high = std::exp(*summary.mean_high);
  law.scatter = std::sqrt(std::expm1(*summary.standard_deviation * *summary.standard_deviation));
  law.leave_one_out_error = *summary.standard_deviation *
                            std::sqrt(static_cast<double>(logs.size()) / static_cast<double>(logs.size() - 1));
  set_range(law, data);
  warnings.push_back(
      fmt::format("{}: one density, so that C = {:.3g} ({:.3g} to {:.3g}) is from these tests and m = {:.3g} is not; "
                  "an exponent off "
                  "by {} moves the law by {:.0f} % at twice the density: test a second and a third density",
                  law.property, law.coefficient, law.coefficient_low, law.coefficient_high, exponent, exponent_doubt,
                  100 * (std::pow(2.0, exponent_doubt) - 1)));
}

void set_power_law(MeasuredLaw& law, const LawData& data, const std::vector<ReducedSpecimen>& specimens,
                   std::vector<std::string>& warnings) {
  const LineFit fit =
      weighted_line(law.property, data, logarithms(data.density), logarithms(data.value), specimens, warnings);
  set_range(law, data);
  if ((fit.slope_high - fit.slope_low) / 2 > widest_exponent) {
    law.refusal =
        fmt::format("the exponent is {:.3g}, but these tests only say that it lies between {:.2g} and {:.2g} "
                    "(95 %); wider than ±1 is no law. More specimens, or densities further apart",
                    fit.slope, fit.slope_low, fit.slope_high);
    return;
  }
  law.line = fit;
  law.coefficient = std::exp(fit.intercept);
  law.coefficient_low = std::exp(fit.intercept_low);
  law.coefficient_high = std::exp(fit.intercept_high);
  law.exponent = fit.slope;
  law.exponent_low = fit.slope_low;
  law.exponent_high = fit.slope_high;
  law.scatter = std::sqrt(std::expm1(fit.residual_deviation * fit.residual_deviation));
  law.leave_one_out_error = fit.leave_one_out_error;
}

MeasuredLaw power_law(const std::string& property, std::string_view over, const std::optional<double>& base,
                      Value value, const std::vector<ReducedSpecimen>& specimens,
                      const std::vector<DensityGroup>& groups, std::optional<double> exponent,
                      std::vector<std::string>& warnings) {
  MeasuredLaw law;
  law.property = property;
  if (!base) {
    law.refusal = fmt::format("the base material's {} is not known", over);
    return law;
  }
  const LawData data = law_data(specimens, groups, value, *base);
  if (data.enough()) {
    set_power_law(law, data, specimens, warnings);
  } else if (data.groups == 1 && exponent) {
    set_assumed(law, data, *exponent, warnings);
  } else {
    law.refusal = too_few(data.groups);
  }
  return law;
}

MeasuredLaw densification_law(const std::vector<ReducedSpecimen>& specimens, const std::vector<DensityGroup>& groups,
                              std::vector<std::string>& warnings) {
  MeasuredLaw law;
  law.property = "efficiency strain";
  const LawData data = law_data(specimens, groups, efficiency_strain, 1);
  if (!data.enough()) {
    law.refusal = too_few(data.groups);
    return law;
  }
  const LineFit fit = weighted_line(law.property, data, data.density, data.value, specimens, warnings);
  set_range(law, data);
  const double widest = std::max(band_of_mean(fit, law.density_low), band_of_mean(fit, law.density_high));
  if (widest > widest_strain) {
    law.refusal = fmt::format("the line is only known to ±{:.2g} strain (95 %) at an end of its range; wider than "
                              "±{:.2g} is no law. More specimens, or densities further apart",
                              widest, widest_strain);
    return law;
  }
  if (fit.slope > 0) {
    law.refusal =
        fmt::format("the efficiency strain rises with density, by {:.2g} ({:.2g} to {:.2g}) per unit; denser "
                    "lattices have less room, so look at the tests",
                    fit.slope, fit.slope_low, fit.slope_high);
    return law;
  }
  const double mean =
      std::accumulate(data.value.begin(), data.value.end(), 0.0) / static_cast<double>(data.value.size());
  law.line = fit;
  law.coefficient = fit.intercept;
  law.coefficient_low = fit.intercept_low;
  law.coefficient_high = fit.intercept_high;
  law.exponent = -fit.slope;
  law.exponent_low = -fit.slope_high;
  law.exponent_high = -fit.slope_low;
  law.scatter = fit.residual_deviation / mean;
  law.leave_one_out_error = fit.leave_one_out_error / mean;
  return law;
}

/// Unloading tells the modulus, the first loading does not; the better one where every density has it.
bool all_unloaded(const std::vector<ReducedSpecimen>& specimens) {
  return std::all_of(specimens.begin(), specimens.end(), [](const ReducedSpecimen& specimen) {
    return !specimen.relative_density || specimen.elastic_gradient;
  });
}

} // namespace

std::vector<MeasuredLaw> measured_laws(const std::vector<ReducedSpecimen>& specimens,
                                       const std::vector<DensityGroup>& groups, const BaseValues& base,
                                       std::optional<double> strength_exponent, std::vector<std::string>& warnings) {
  const bool unloaded = all_unloaded(specimens);
  return {power_law("plateau stress", "proof stress", base.proof_stress, plateau_stress, specimens, groups,
                    strength_exponent, warnings),
          power_law(unloaded ? "elastic gradient" : "quasi-elastic gradient", "Young's modulus", base.youngs_modulus,
                    unloaded ? elastic_gradient : quasi_elastic_gradient, specimens, groups, std::nullopt, warnings),
          densification_law(specimens, groups, warnings)};
}

} // namespace crushwright
