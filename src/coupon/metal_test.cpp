#include "crushwright/metal_test.hpp"

#include "coupon/elastic_line.hpp"
#include "coupon/test_curve.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr double hardening_from = 0.02;       ///< true plastic strain
constexpr double hardening_to_pressed = 0.10; ///< in compression
constexpr std::size_t fewest_points = 5;

struct TruePoint {
  double stress = 0, plastic_strain = 0;
};

TruePoint true_point(double strain, double stress, double modulus, TestKind kind) {
  const bool pulled = kind == TestKind::metal_tension;
  const double true_stress = pulled ? stress * (1 + strain) : stress * (1 - strain);
  const double true_strain = pulled ? std::log(1 + strain) : -std::log(1 - strain);
  return {true_stress, true_strain - true_stress / modulus};
}

/// Through the points between the two true plastic strains; nothing when there are too few.
void add_hardening(const StressStrain& curve, double modulus, TestKind kind, double from, double to,
                   MetalTest& test) {
  std::vector<double> strains, stresses;
  for (std::size_t i = 0; i < curve.strain.size() && curve.strain[i] < 1; ++i) {
    const TruePoint point = true_point(curve.strain[i], curve.stress[i], modulus, kind);
    if (point.plastic_strain > to) {
      break;
    }
    if (point.plastic_strain >= from && point.stress > 0) {
      strains.push_back(std::log(point.plastic_strain));
      stresses.push_back(std::log(point.stress));
    }
  }
  if (strains.size() < fewest_points) {
    test.warnings.push_back(
        fmt::format("no hardening exponent: {} points between {:.2g} and {:.2g} % plastic strain, "
                    "five are needed",
                    strains.size(), 100 * from, 100 * to));
    return;
  }
  const LineFit line = fitted_line(strains, stresses);
  test.hardening_exponent = line.slope;
  test.hardening_coefficient = std::exp(line.intercept);
}

void add_tension(const StressStrain& curve, const ElasticLine& line, MetalTest& test) {
  const auto greatest = std::max_element(curve.stress.begin(), curve.stress.end());
  const auto top = static_cast<std::size_t>(greatest - curve.stress.begin());
  test.ultimate_stress = *greatest;
  test.uniform_elongation = curve.strain[top] - line.offset - *greatest / line.modulus;
  test.fracture_elongation = curve.strain.back() - line.offset - curve.stress.back() / line.modulus;
  const double to = true_point(curve.strain[top], *greatest, line.modulus, TestKind::metal_tension).plastic_strain;
  const double from = to < 2 * hardening_from ? to / 5 : hardening_from;
  add_hardening(curve, line.modulus, TestKind::metal_tension, from, to, test);
}

std::optional<double> rate_of(const SpecimenFacts& facts) {
  if (facts.strain_rate) {
    return facts.strain_rate;
  }
  if (facts.speed && facts.height) {
    return *facts.speed / *facts.height;
  }
  return std::nullopt;
}

using Value = std::function<std::optional<double>(const MetalTest&)>;

void summarise_property(const std::string& name, const std::string& unit, const Value& value, MetalReport& report) {
  std::vector<double> values;
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < report.tests.size(); ++i) {
    if (const std::optional<double> each = value(report.tests[i])) {
      values.push_back(*each);
      places.push_back(i);
    }
  }
  if (values.empty()) {
    return;
  }
  PropertySummary summary;
  summary.property = name;
  summary.unit = unit;
  summary.summary = summarise(values);
  for (const std::size_t odd : outliers(values)) {
    summary.outliers.push_back(places[odd]);
    report.warnings.push_back(
        fmt::format("specimen \"{}\": {} lies outside what scatter explains (5 % level); it is kept. "
                    "Find out why before it is left out",
                    report.tests[places[odd]].facts.id, name));
  }
  if (values.size() > 1) {
    summary.factor = one_sided_tolerance_factor(values.size());
    const double band = summary.factor * *summary.summary.standard_deviation;
    summary.claimable_low = summary.summary.mean - band;
    summary.claimable_high = summary.summary.mean + band;
  }
  report.summaries.push_back(summary);
}

void add_rate(MetalReport& report) {
  std::vector<double> rates, stresses;
  for (const MetalTest& test : report.tests) {
    if (test.strain_rate && test.proof_stress) {
      rates.push_back(*test.strain_rate);
      stresses.push_back(*test.proof_stress);
    }
  }
  report.rate = fitted_rate(rates, stresses);
}

} // namespace

MetalTest reduce_metal_test(const TestRecord& record, TestKind kind) {
  if (kind == TestKind::lattice_compression) {
    throw InputError(
        fmt::format("{}: a lattice compression test is not reduced as a test of the metal", place_in(record)));
  }
  MetalTest test;
  test.facts = record.specimen;
  test.test = conditioned(record);
  test.strain_rate = rate_of(record.specimen);
  const StressStrain& curve = test.test.curve;
  const std::optional<ElasticLine> line = elastic_line(curve);
  if (!line) {
    test.warnings.emplace_back(
        "neither modulus nor proof stress: the curve has under five points on its elastic line, or "
        "never leaves that line by 0.2 %");
    return test;
  }
  test.youngs_modulus = line->modulus;
  test.proof_stress = line->proof_stress;
  if (record.kind == RecordKind::force_displacement && !record.specimen.machine_compliance) {
    test.warnings.emplace_back(
        "the modulus holds machine and grips: displacement is not known to be measured on the bar and "
        "no compliance is stated. Do not use it");
  }
  if (kind == TestKind::metal_tension) {
    add_tension(curve, *line, test);
  } else {
    add_hardening(curve, line->modulus, kind, hardening_from, hardening_to_pressed, test);
  }
  return test;
}

MetalReport metal_report(const TestSeries& series) {
  if (series.records.empty()) {
    throw InputError(fmt::format("the series \"{}\" holds no test", series.title));
  }
  MetalReport report;
  report.title = series.title;
  report.material = series.material;
  report.process = series.process;
  report.kind = series.kind;
  report.source = series.source;
  for (const TestRecord& record : series.records) {
    report.tests.push_back(reduce_metal_test(record, series.kind));
    for (const std::string& warning : report.tests.back().warnings) {
      report.warnings.push_back(fmt::format("specimen \"{}\": {}", record.specimen.id, warning));
    }
  }
  summarise_property(
      "Young's modulus", "Pa", [](const MetalTest& test) { return test.youngs_modulus; }, report);
  summarise_property(
      "proof stress", "Pa", [](const MetalTest& test) { return test.proof_stress; }, report);
  summarise_property(
      "ultimate stress", "Pa", [](const MetalTest& test) { return test.ultimate_stress; }, report);
  summarise_property(
      "uniform elongation", "1", [](const MetalTest& test) { return test.uniform_elongation; }, report);
  summarise_property(
      "fracture elongation", "1", [](const MetalTest& test) { return test.fracture_elongation; }, report);
  summarise_property(
      "hardening exponent", "1", [](const MetalTest& test) { return test.hardening_exponent; }, report);
  add_rate(report);
  return report;
}

} // namespace crushwright
