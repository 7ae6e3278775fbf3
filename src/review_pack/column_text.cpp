#include "review_pack/column_text.hpp"

#include "quantities/units.hpp"
#include "review_pack/text_table.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace crushwright {

namespace {

bool is_limited(const Estimate& estimate, LimitedQuantity quantity) {
  const std::vector<Check>& checks = estimate.deciding.verdict.checks;
  return std::any_of(checks.begin(), checks.end(),
                     [&](const Check& check) { return check.limit.quantity == quantity; });
}

/// Greatest nominal section use over the impacts; negative without a column check.
double greatest_use(const Estimate& estimate) {
  double greatest = -1;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    for (const ColumnUnderForce& state : impact.column_states) {
      greatest = std::max(greatest, state.section.use);
    }
  }
  return greatest;
}

double least_stability(const Estimate& estimate) {
  double least = HUGE_VAL;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    for (const ColumnUnderForce& state : impact.column_states) {
      least = std::min(least, state.stability_reserve);
    }
  }
  return least;
}

bool has_service(const Estimate& estimate) {
  return std::any_of(estimate.structures.begin(), estimate.structures.end(),
                     [](const StructureModel& each) { return !each.service.empty(); });
}

bool has_spectrum(const Estimate& estimate) {
  return std::any_of(estimate.structures.begin(), estimate.structures.end(),
                     [](const StructureModel& each) { return each.fatigue.has_value(); });
}

bool any_oblique(const Estimate& estimate) {
  return std::any_of(estimate.deciding.impacts.begin(), estimate.deciding.impacts.end(),
                     [](const ImpactOutcome& each) { return each.force_angle > 0; });
}

std::vector<std::string> unlimited(const Estimate& estimate) {
  std::vector<std::string> found;
  const double use = greatest_use(estimate), stability = least_stability(estimate);
  if (!is_limited(estimate, LimitedQuantity::section_use) && use >= 0) {
    found.push_back(fmt::format("use of the plastic section ({} at worst, nominal)", show(use, Dimension::fraction)));
  }
  if (!is_limited(estimate, LimitedQuantity::stability_reserve) && std::isfinite(stability)) {
    found.push_back(fmt::format("stability (reserve {} at worst, nominal)", show(stability, Dimension::fraction)));
  }
  if (has_service(estimate) && !is_limited(estimate, LimitedQuantity::service_use)) {
    found.emplace_back("service loads");
  }
  if (has_spectrum(estimate) && !is_limited(estimate, LimitedQuantity::fatigue_damage)) {
    found.emplace_back("fatigue");
  }
  return found;
}

std::vector<std::string> unstated(const Estimate& estimate) {
  std::vector<std::string> found;
  if (!any_oblique(estimate)) {
    found.emplace_back("an oblique force (`force_angle`)");
  }
  if (!has_service(estimate)) {
    found.emplace_back("service loads");
  }
  if (!has_spectrum(estimate)) {
    found.emplace_back("a load spectrum for fatigue");
  }
  return found;
}

/// A straight force bends by rounding alone.
double without_rounding(double use) {
  return use < 1e-9 ? 0 : use;
}

std::string critical_text(double angle) {
  return angle < 0.25 * std::numbers::pi ? show(angle, Dimension::angle) : "> 45 °";
}

std::string critical_force(const ColumnUnderForce& state) {
  const double least = std::min(state.buckling_force, state.tilting_force);
  return std::isfinite(least) ? show(least, Dimension::force) : "none";
}

} // namespace

std::vector<AlikeColumns> alike_columns(const ImpactOutcome& impact) {
  std::vector<AlikeColumns> groups;
  for (std::size_t i = 0; i < impact.mapped.size(); ++i) {
    const ColumnUnderForce& state = impact.column_states[i];
    const auto alike = std::find_if(groups.begin(), groups.end(), [&](const AlikeColumns& group) {
      const ColumnUnderForce& other = impact.column_states[group.first];
      return other.force == state.force && std::abs(other.section.use - state.section.use) <= 1e-9;
    });
    if (alike == groups.end()) {
      groups.push_back({impact.mapped[i], i});
    } else {
      alike->structures += ", " + impact.mapped[i];
    }
  }
  return groups;
}

std::string beside_the_verdict(const Estimate& estimate) {
  std::string text;
  if (const auto shown = unlimited(estimate); !shown.empty()) {
    text = fmt::format("Shown but without a limit, so not in the verdict: {}.", fmt::join(shown, ", "));
  }
  if (const auto missing = unstated(estimate); !missing.empty()) {
    text += fmt::format("{}Not stated in the case, so not checked: {}.", text.empty() ? "" : " ",
                        fmt::join(missing, ", "));
  }
  return text;
}

std::string column_text(const Estimate& estimate) {
  std::vector<std::vector<std::string>> rows = {
      {"impact", "structure", "angle", "axial", "bending", "use", "tips from", "buckles"}};
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    for (const AlikeColumns& group : alike_columns(impact)) {
      const ColumnUnderForce& state = impact.column_states[group.first];
      rows.push_back({impact.id, group.structures, show(state.angle, Dimension::angle),
                      show(state.section.axial, Dimension::fraction),
                      show(without_rounding(state.section.bending), Dimension::fraction),
                      show(state.section.use, Dimension::fraction),
                      critical_text(impact.critical_angles[group.first]), critical_force(state)});
    }
  }
  if (rows.size() == 1) {
    return {};
  }
  return "\nColumns (nominal, worst over the stroke)\n" +
         text_table({false, false, true, true, true, true, true, true}, rows);
}

} // namespace crushwright
