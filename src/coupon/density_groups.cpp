#include "coupon/density_groups.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr double same_density = 1.02;

struct Property {
  std::string_view name, unit;
  std::optional<double> (*of)(const ReducedSpecimen&);
};

/// Absent where the test ended before the efficiency was greatest: then they are lower bounds and no sample.
std::optional<double> if_reached(const ReducedSpecimen& specimen, double value) {
  return specimen.quantities.efficiency_still_rising ? std::nullopt : std::optional(value);
}

constexpr std::array<Property, 10> properties{{
    {"plateau stress", "Pa", [](const ReducedSpecimen& s) { return std::optional(s.quantities.plateau_stress); }},
    {"plateau end", "-", [](const ReducedSpecimen& s) { return s.quantities.plateau_end; }},
    {"efficiency strain", "-",
     [](const ReducedSpecimen& s) { return if_reached(s, s.quantities.efficiency_strain); }},
    {"greatest efficiency", "-",
     [](const ReducedSpecimen& s) { return if_reached(s, s.quantities.greatest_efficiency); }},
    {"first maximum", "Pa", [](const ReducedSpecimen& s) { return s.quantities.first_maximum; }},
    {"quasi-elastic gradient", "Pa", [](const ReducedSpecimen& s) { return s.quantities.quasi_elastic_gradient; }},
    {"elastic gradient", "Pa", [](const ReducedSpecimen& s) { return s.elastic_gradient; }},
    {"offset stress", "Pa", [](const ReducedSpecimen& s) { return s.offset_stress; }},
    {"energy to the efficiency strain", "J/m3",
     [](const ReducedSpecimen& s) { return if_reached(s, s.quantities.energy_to_efficiency_strain); }},
    {"specific energy", "J/kg",
     [](const ReducedSpecimen& s) { return s.specific_energy ? if_reached(s, *s.specific_energy) : std::nullopt; }},
}};

void add_claims(PropertySummary& property) {
  if (!property.summary.standard_deviation) {
    return;
  }
  property.factor = one_sided_tolerance_factor(property.summary.count);
  property.claimable_low = property.summary.mean - property.factor * *property.summary.standard_deviation;
  property.claimable_high = property.summary.mean + property.factor * *property.summary.standard_deviation;
}

std::optional<PropertySummary> summary_of(const Property& property, const std::vector<ReducedSpecimen>& specimens,
                                          const DensityGroup& group) {
  std::vector<double> values;
  std::vector<std::size_t> owners;
  for (const std::size_t member : group.members) {
    if (const std::optional<double> value = property.of(specimens[member])) {
      values.push_back(*value);
      owners.push_back(member);
    }
  }
  if (values.empty()) {
    return std::nullopt;
  }
  PropertySummary result;
  result.property = property.name;
  result.unit = property.unit;
  result.summary = summarise(values);
  for (const std::size_t odd : outliers(values)) {
    result.outliers.push_back(owners[odd]);
  }
  add_claims(result);
  return result;
}

std::string group_words(const DensityGroup& group) {
  return group.relative_density ? fmt::format(" at relative density {:.3g}", *group.relative_density)
                                : " at a density not known";
}

} // namespace

std::vector<DensityGroup> density_groups(const std::vector<ReducedSpecimen>& specimens) {
  std::vector<std::size_t> known;
  DensityGroup unknown;
  for (std::size_t i = 0; i < specimens.size(); ++i) {
    (specimens[i].relative_density ? known : unknown.members).push_back(i);
  }
  std::stable_sort(known.begin(), known.end(), [&specimens](std::size_t a, std::size_t b) {
    return *specimens[a].relative_density < *specimens[b].relative_density;
  });
  std::vector<DensityGroup> groups;
  double lightest = 0;
  for (const std::size_t i : known) {
    const double density = *specimens[i].relative_density;
    if (groups.empty() || density > same_density * lightest) {
      groups.emplace_back();
      lightest = density;
    }
    groups.back().members.push_back(i);
  }
  for (DensityGroup& group : groups) {
    double sum = 0;
    for (const std::size_t member : group.members) {
      sum += *specimens[member].relative_density;
    }
    group.relative_density = sum / static_cast<double>(group.members.size());
    std::sort(group.members.begin(), group.members.end());
  }
  if (!unknown.members.empty()) {
    groups.push_back(unknown);
  }
  return groups;
}

std::vector<PropertySummary> property_summaries(const std::vector<ReducedSpecimen>& specimens,
                                                const std::vector<DensityGroup>& groups) {
  std::vector<PropertySummary> summaries;
  for (const DensityGroup& group : groups) {
    for (const Property& property : properties) {
      std::optional<PropertySummary> summary = summary_of(property, specimens, group);
      if (summary) {
        summary->property += groups.size() > 1 ? group_words(group) : "";
        summaries.push_back(std::move(*summary));
      }
    }
  }
  return summaries;
}

} // namespace crushwright
