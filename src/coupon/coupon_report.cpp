#include "crushwright/errors.hpp"

#include "coupon/density_groups.hpp"
#include "coupon/measured_laws.hpp"
#include "coupon/test_curve.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace crushwright {
namespace {

void check_series(const TestSeries& series) {
  if (series.kind != TestKind::lattice_compression) {
    throw InputError(
        fmt::format("the series \"{}\" holds tests of the kind {}; lattice laws need lattice compression "
                    "tests",
                    series.title, name_of(series.kind)));
  }
  if (series.records.empty()) {
    throw InputError(fmt::format("the series \"{}\" holds no test", series.title));
  }
  std::set<std::string> ids;
  for (const TestRecord& record : series.records) {
    if (!ids.insert(record.specimen.id).second) {
      throw InputError(fmt::format("{}: this name is taken by another specimen of the series", place_in(record)));
    }
  }
}

void set_window(CouponReport& report, const std::vector<double>& window) {
  if (window.size() == 2) {
    report.plateau_from = window[0];
    report.plateau_to = window[1];
  }
  if (!(report.plateau_from >= 0 && report.plateau_to > report.plateau_from && report.plateau_to < 1)) {
    throw InputError(fmt::format("the plateau window goes from strain {} to {}; it must rise, inside 0 to 1",
                                 report.plateau_from, report.plateau_to));
  }
}

void tell_outliers(CouponReport& report) {
  for (const PropertySummary& summary : report.summaries) {
    for (const std::size_t odd : summary.outliers) {
      report.warnings.push_back(
          fmt::format("specimen \"{}\": {} lies outside what scatter explains (5 % level); it is "
                      "kept. Find out why before it is left out",
                      report.specimens[odd].facts.id, summary.property));
    }
  }
}

/// Names of the specimens that a statement holds for, or nothing.
template <class Holds>
std::vector<std::string> named(const CouponReport& report, Holds holds) {
  std::vector<std::string> names;
  for (const ReducedSpecimen& specimen : report.specimens) {
    if (holds(specimen)) {
      names.push_back(specimen.facts.id);
    }
  }
  return names;
}

void tell_missing(CouponReport& report) {
  const auto without_density = named(report, [](const ReducedSpecimen& s) { return !s.relative_density; });
  if (!without_density.empty()) {
    report.warnings.push_back(fmt::format("no relative density, so left out of the laws: {}; state it, or mass, size "
                                          "and base material",
                                          fmt::join(without_density, ", ")));
  }
  const auto still_rising =
      named(report, [](const ReducedSpecimen& s) { return s.quantities.efficiency_still_rising; });
  if (!still_rising.empty()) {
    report.warnings.push_back(
        fmt::format("the test ends before the efficiency is greatest, so its efficiency strain and "
                    "energies are left out of summary and law: {}",
                    fmt::join(still_rising, ", ")));
  }
  const auto off_standard = named(report, [](const ReducedSpecimen& s) {
    return std::any_of(s.conditions.begin(), s.conditions.end(),
                       [](const TestCondition& condition) { return condition.holds == false; });
  });
  if (!off_standard.empty()) {
    report.warnings.push_back(fmt::format("a condition of ISO 13314 (from memory: confirm in the edition) is not met "
                                          "by: {}",
                                          fmt::join(off_standard, ", ")));
  }
}

} // namespace

CouponReport coupon_report(const TestSeries& series, const BaseValues& base,
                           std::optional<double> strength_exponent) {
  check_series(series);
  CouponReport report;
  report.title = series.title;
  report.cell = series.cell;
  report.direction = series.direction;
  report.material = series.material;
  report.process = series.process;
  report.source = series.source;
  report.proof_stress = base.proof_stress;
  set_window(report, series.plateau_window);
  for (const TestRecord& record : series.records) {
    report.specimens.push_back(reduce_specimen(record, base.density, report.plateau_from, report.plateau_to));
  }
  const std::vector<DensityGroup> groups = density_groups(report.specimens);
  report.summaries = property_summaries(report.specimens, groups);
  tell_outliers(report);
  tell_missing(report);
  report.laws = measured_laws(report.specimens, groups, base, strength_exponent, report.warnings);
  return report;
}

} // namespace crushwright
