#include "crushwright/coupon_series.hpp"
#include "crushwright/errors.hpp"

#include "coupon/specimen_size.hpp"
#include "coupon/test_conditions.hpp"
#include "coupon/test_curve.hpp"

#include <cmath>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr double offset_strain = 0.01;
constexpr double toe_told = 0.05;
constexpr double densities_differ = 0.05;

CompressionQuantities reduced_curve(const TestRecord& record, const StressStrain& curve, double from, double to) {
  if (curve.strain.back() < to) {
    throw InputError(
        fmt::format("{}: the test ends at {:.3g} % strain, before the plateau window from {:.3g} to {:.3g} "
                    "% does; state a narrower window for the series, or leave the specimen out",
                    place_in(record), 100 * curve.strain.back(), 100 * from, 100 * to));
  }
  try {
    return reduce_compression_test(curve, from, to);
  } catch (const OutOfDomain& reason) {
    throw InputError(fmt::format("{}: {}", place_in(record), reason.what()));
  }
}

/// Where the line of a gradient through 1 % strain at no load meets the curve; absent when it does not.
std::optional<double> offset_stress_of(const StressStrain& curve, double gradient) {
  const auto above = [&curve, gradient](std::size_t i) {
    return curve.stress[i] - gradient * (curve.strain[i] - offset_strain);
  };
  for (std::size_t i = 1; i < curve.strain.size(); ++i) {
    const double before = above(i - 1);
    const double after = above(i);
    if (before > 0 && after <= 0 && curve.strain[i] > offset_strain) {
      return curve.stress[i - 1] + (curve.stress[i] - curve.stress[i - 1]) * before / (before - after);
    }
  }
  return std::nullopt;
}

void add_offset_stress(ReducedSpecimen& specimen) {
  specimen.offset_by_unloading = specimen.elastic_gradient.has_value();
  const std::optional<double> gradient =
      specimen.elastic_gradient ? specimen.elastic_gradient : specimen.quantities.quasi_elastic_gradient;
  if (gradient) {
    specimen.offset_stress = offset_stress_of(specimen.test.curve, *gradient);
  }
}

void add_density(ReducedSpecimen& specimen, std::optional<double> solid_density) {
  const std::optional<double> weighed = weighed_relative_density(specimen.facts, solid_density);
  specimen.relative_density = specimen.facts.relative_density ? specimen.facts.relative_density : weighed;
  if (specimen.facts.relative_density && weighed &&
      std::fabs(*weighed / *specimen.facts.relative_density - 1) > densities_differ) {
    specimen.warnings.push_back(
        fmt::format("relative density is stated as {:.3g}, but mass and size give {:.3g}; the "
                    "stated one is used",
                    *specimen.facts.relative_density, *weighed));
  }
  if (specimen.relative_density && !(*specimen.relative_density > 0 && *specimen.relative_density < 1)) {
    specimen.warnings.push_back(
        fmt::format("relative density comes out as {:.3g}, outside 0 to 1: check mass, size and "
                    "base material; it is not used",
                    *specimen.relative_density));
    specimen.relative_density.reset();
  }
}

void add_specific_energy(ReducedSpecimen& specimen, std::optional<double> solid_density) {
  const std::optional<double> volume = envelope_volume(specimen.facts);
  const double energy = specimen.quantities.energy_to_efficiency_strain;
  if (specimen.facts.mass && volume) {
    specimen.specific_energy = energy * *volume / *specimen.facts.mass;
  } else if (specimen.relative_density && solid_density) {
    specimen.specific_energy = energy / (*specimen.relative_density * *solid_density);
  }
}

void add_warnings(ReducedSpecimen& specimen) {
  if (specimen.test.toe_strain > toe_told) {
    specimen.warnings.push_back(fmt::format("the toe is {:.2g} % strain; above 5 % the faces were not flat or not "
                                            "parallel",
                                            100 * specimen.test.toe_strain));
  }
  if (specimen.quantities.efficiency_still_rising) {
    specimen.warnings.emplace_back("the efficiency still rises where the test ends: efficiency strain and energy are "
                                   "lower bounds");
  }
  if (specimen.test.loops.empty()) {
    specimen.warnings.emplace_back("no unload loop: the gradient is the quasi-elastic one, which is no modulus");
  }
  for (const TestCondition& condition : specimen.conditions) {
    if (condition.holds == false) {
      specimen.warnings.push_back(
          fmt::format("{} is {}; ISO 13314 asks for {} (memory)", condition.what, condition.found, condition.asked));
    }
  }
}

} // namespace

ReducedSpecimen reduce_specimen(const TestRecord& record, std::optional<double> solid_density, double plateau_from,
                                double plateau_to) {
  ReducedSpecimen specimen;
  specimen.facts = record.specimen;
  specimen.test = conditioned(record);
  specimen.quantities = reduced_curve(record, specimen.test.curve, plateau_from, plateau_to);
  for (const UnloadLoop& loop : specimen.test.loops) {
    if (loop.gradient > 0 && !specimen.elastic_gradient) {
      specimen.elastic_gradient = loop.gradient;
    }
  }
  add_offset_stress(specimen);
  add_density(specimen, solid_density);
  add_specific_energy(specimen, solid_density);
  specimen.conditions = test_conditions(specimen.facts, specimen.relative_density);
  add_warnings(specimen);
  return specimen;
}

} // namespace crushwright
