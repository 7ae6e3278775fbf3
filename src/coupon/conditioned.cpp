#include "crushwright/coupon_series.hpp"
#include "crushwright/errors.hpp"

#include "coupon/forward_path.hpp"
#include "coupon/load_zero.hpp"
#include "coupon/quasi_elastic.hpp"
#include "coupon/test_curve.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr std::size_t fewest_points = 10;
constexpr double machine_share_told = 0.5;
constexpr double machine_share_refused = 0.95;
constexpr double toe_told = 0.05;
constexpr double toe_refused = 0.20;
constexpr double no_shift = 1e-6;         ///< strain: less is rounding
constexpr double late_start = 0.02;       ///< strain up to which a curve is joined to the origin
constexpr double approach_stress = 0.005; ///< of the level: below it nothing touches yet

void take_machine_off(const TestRecord& record, TestCurve& curve, ConditionedTest& test) {
  if (curve.machine_modulus == 0) {
    return;
  }
  const double level = stress_level(curve.samples);
  const std::vector<TestPoint> as_recorded = forward_path(record, curve.samples, level).samples;
  const std::optional<QuasiElasticLine> rise = quasi_elastic_line(as_recorded, level);
  const double share = rise ? rise->slope / curve.machine_modulus : 0;
  if (share >= machine_share_refused) {
    throw InputError(fmt::format(
        "{}: the stated machine compliance accounts for {:.0f} % of the displacement in the steepest rise; less than "
        "{:.0f} % is possible. Check its unit, or leave it out if the displacement was measured on the specimen",
        place_in(record), 100 * share, 100 * machine_share_refused));
  }
  for (TestPoint& sample : curve.samples) {
    sample.strain -= sample.stress / curve.machine_modulus;
    test.compliance_strain = std::max(test.compliance_strain, sample.stress / curve.machine_modulus);
  }
  test.remarks.push_back(fmt::format(
      "machine and platens: up to {:.3g} % strain taken off{}", 100 * test.compliance_strain,
      share >= machine_share_told ? fmt::format("; they made {:.0f} % of the rise, so gradients rest on the "
                                                "stated compliance",
                                                100 * share)
                                  : ""));
}

/// Strain at which the specimen is touched: the end of the quiet stretch before the line, else the first sample.
double contact_strain(const std::vector<TestPoint>& samples, const QuasiElasticLine& line, const QuietStretch& quiet,
                      double level) {
  const double silent = std::max(approach_stress * level, 3 * quiet.noise);
  double contact = samples.front().strain;
  for (std::size_t i = 0; quiet.count > 0 && i < line.first && samples[i].stress <= silent; ++i) {
    contact = samples[i].strain;
  }
  return std::min(contact, std::max(line.foot, samples.front().strain));
}

void tell_toe(const TestRecord& record, const std::vector<TestPoint>& samples, const QuasiElasticLine& line,
              double contact, ConditionedTest& test) {
  const double first = samples.front().strain;
  if (test.toe_strain > toe_refused) {
    throw InputError(fmt::format("{}: the steep rise begins {:.0f} % strain after contact; that is no toe. Cut the "
                                 "record's start, or zero the displacement at contact",
                                 place_in(record, samples[line.first].line), 100 * test.toe_strain));
  }
  if (contact - first > no_shift) {
    test.remarks.push_back(fmt::format("{}: {:.3g} % strain of way before contact taken off",
                                       lines_text(samples.front().line, samples[line.first].line),
                                       100 * (contact - first)));
  }
  if (test.toe_strain > no_shift) {
    test.remarks.push_back(fmt::format(
        "{}: toe of {:.3g} % strain taken off, by the straight line from line {} on{}",
        lines_text(samples.front().line, samples[line.first].line), 100 * test.toe_strain, samples[line.first].line,
        test.toe_strain > toe_told ? "; more than 5 %, look at the faces of the specimen and at its seating" : ""));
  }
  if (line.foot < first - no_shift) {
    test.remarks.push_back(fmt::format("line {}: the record starts under load; {:.3g} % strain added in front",
                                       samples.front().line, 100 * (first - line.foot)));
  }
}

/// Strain from the foot on; below the line's first sample the curve is the line.
void set_curve(const std::vector<TestPoint>& samples, const QuasiElasticLine& line, StressStrain& curve) {
  const bool toe = line.foot > samples.front().strain + no_shift;
  curve.strain.push_back(0);
  curve.stress.push_back(0);
  for (std::size_t i = toe ? line.first : 0; i < samples.size(); ++i) {
    const double strain = samples[i].strain - line.foot;
    if (strain > no_shift * no_shift) {
      curve.strain.push_back(strain);
      curve.stress.push_back(samples[i].stress);
    }
  }
}

void set_curve_without_rise(const std::vector<TestPoint>& samples, ConditionedTest& test) {
  const double first = samples.front().strain;
  const double shift = first < 0 || first > late_start ? first : 0;
  for (const TestPoint& sample : samples) {
    test.curve.strain.push_back(sample.strain - shift);
    test.curve.stress.push_back(sample.stress);
  }
  test.remarks.push_back(fmt::format(
      "line {}: the record shows no rise from zero load to the plateau, so that no toe "
      "is taken off{}",
      samples.front().line, shift != 0 ? fmt::format("; strain counted from {:.3g} %", 100 * shift) : ""));
}

} // namespace

ConditionedTest conditioned(const TestRecord& record) {
  ConditionedTest test;
  test.specimen = record.specimen.id;
  test.remarks = record.remarks;
  TestCurve curve = test_curve(record);
  if (!(stress_level(curve.samples) > 0)) {
    throw InputError(fmt::format("{}: the load is zero throughout", place_in(record)));
  }
  const QuietStretch quiet = take_zero_off(curve);
  test.remarks.insert(test.remarks.end(), curve.remarks.begin(), curve.remarks.end());
  take_machine_off(record, curve, test);

  const double level = stress_level(curve.samples);
  ForwardPath path = forward_path(record, curve.samples, level);
  test.loops = std::move(path.loops);
  test.remarks.insert(test.remarks.end(), path.remarks.begin(), path.remarks.end());
  const std::optional<QuasiElasticLine> line = quasi_elastic_line(path.samples, level);
  if (line) {
    const double contact = contact_strain(path.samples, *line, quiet, level);
    test.toe_strain = std::max(0.0, line->foot - contact);
    tell_toe(record, path.samples, *line, contact, test);
    set_curve(path.samples, *line, test.curve);
    for (UnloadLoop& loop : test.loops) {
      loop.strain -= line->foot;
    }
  } else {
    set_curve_without_rise(path.samples, test);
  }
  if (test.curve.strain.size() < fewest_points) {
    throw InputError(
        fmt::format("{}: {} points are left once loops, repeated readings and ends are out; a test needs "
                    "at least {}",
                    place_in(record), test.curve.strain.size(), fewest_points));
  }
  return test;
}

} // namespace crushwright
