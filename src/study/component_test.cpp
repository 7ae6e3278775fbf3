#include "crushwright/component_test.hpp"

#include "correlation/common_grid.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace crushwright {

namespace {

constexpr std::size_t fewest_points = 20;

const StructureCurves& curves_of(const Estimate& estimate, const std::string& structure) {
  std::vector<std::string> known;
  for (const StructureCurves& curves : estimate.deciding.curves) {
    if (curves.structure == structure) {
      return curves;
    }
    known.push_back(curves.structure);
  }
  throw InputError(
      fmt::format("the case has no structure '{}'\n   Name one of: {}.", structure, fmt::join(known, ", ")));
}

/// Points whose crush goes beyond all before; the force of the rest belongs to unloading.
SampledCurve way_forward(const TestRecord& record, std::vector<std::string>& remarks) {
  SampledCurve forward;
  std::size_t left_out = 0, first_line = 0;
  for (const RecordPoint& point : record.points) {
    if (forward.x.empty() || point.along > forward.x.back()) {
      forward.x.push_back(point.along);
      forward.y.push_back(point.load);
    } else {
      first_line = left_out == 0 ? point.line : first_line;
      ++left_out;
    }
  }
  if (left_out > 0) {
    remarks.push_back(
        fmt::format("line {}: here and after it {} readings do not go beyond the crush before them and are "
                    "left out",
                    first_line, left_out));
  }
  if (forward.x.size() < fewest_points) {
    throw InputError(
        fmt::format("{}: {} readings go forward; a component test needs {} or more\n   Give the whole record.",
                    record.file_name, forward.x.size(), fewest_points));
  }
  return forward;
}

SampledCurve sampled(const CrushCurve& curve) {
  return {curve.crush, curve.force};
}

/// One side at the places of the comparison. Beyond its last point a crush curve goes on with its last slope.
SampledCurve side(const CrushCurve& curve, const SampledCurve& places, std::optional<double> filter_width) {
  SampledCurve result;
  result.x = places.x;
  for (const double x : places.x) {
    result.y.push_back(curve.force_at(x));
  }
  return filter_width ? smoothed(result, *filter_width) : result;
}

void add_shares(ComponentComparison& comparison) {
  std::size_t below = 0, above = 0;
  const SampledCurve& measured = comparison.correlation.measured;
  for (std::size_t i = 0; i < measured.y.size(); ++i) {
    // Weak and strong may cross where one is used up before the other.
    const auto [low, high] = std::minmax(comparison.weak.y[i], comparison.strong.y[i]);
    below += measured.y[i] < low ? 1U : 0U;
    above += measured.y[i] > high ? 1U : 0U;
  }
  const auto count = static_cast<double>(measured.y.size());
  comparison.share_below = static_cast<double>(below) / count;
  comparison.share_above = static_cast<double>(above) / count;
  comparison.share_inside = 1 - comparison.share_below - comparison.share_above;
}

} // namespace

ComponentComparison compared_component(const Estimate& estimate, const std::string& structure,
                                       const TestRecord& record, std::optional<double> filter_width) {
  const StructureCurves& curves = curves_of(estimate, structure);
  if (record.kind != RecordKind::force_displacement) {
    throw InputError(
        fmt::format("{}: a component is compared by force and crush, and this file holds stress and strain\n"
                    "   Give the record of force and displacement.",
                    record.file_name));
  }
  ComponentComparison comparison;
  comparison.structure = structure;
  comparison.specimen = record.specimen.id;
  comparison.remarks = record.remarks;
  CorrelationOptions options;
  options.filter_width = filter_width;
  comparison.correlation = correlate(sampled(curves.nominal), way_forward(record, comparison.remarks), options);
  comparison.weak = side(curves.weak, comparison.correlation.measured, filter_width);
  comparison.strong = side(curves.strong, comparison.correlation.measured, filter_width);
  add_shares(comparison);
  return comparison;
}

} // namespace crushwright
