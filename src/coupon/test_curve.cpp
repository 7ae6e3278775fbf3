#include "coupon/test_curve.hpp"

#include "crushwright/errors.hpp"

#include "coupon/specimen_size.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr std::size_t fewest_points = 10;
constexpr double contact_share = 0.02; ///< of the greatest stress
constexpr double level_from = 0.20;
constexpr double level_to = 0.40;

double needed(const TestRecord& record, std::optional<double> value, std::string_view what, std::string_view how) {
  if (!value) {
    throw InputError(
        fmt::format("{}: {} is not stated, so {}; state it with the specimen", place_in(record), what, how));
  }
  if (!(*value > 0) || !std::isfinite(*value)) {
    throw InputError(fmt::format("{}: {} is {}; it must be above 0", place_in(record), what, *value));
  }
  return *value;
}

/// A column whose values went down where the load was greatest is turned: compression, or stretching, is positive.
void turn_upwards(TestCurve& curve) {
  auto& samples = curve.samples;
  const auto strongest = std::max_element(samples.begin(), samples.end(), [](const TestPoint& a, const TestPoint& b) {
    return std::fabs(a.stress) < std::fabs(b.stress);
  });
  const bool load_down = strongest->stress < 0;
  const bool strain_down = strongest->strain < samples.front().strain;
  for (TestPoint& sample : samples) {
    sample.stress = load_down ? -sample.stress : sample.stress;
    sample.strain = strain_down ? -sample.strain : sample.strain;
  }
  if (load_down) {
    curve.remarks.emplace_back("the load was greatest downwards and is turned, so that it is positive");
  }
  if (strain_down) {
    curve.remarks.emplace_back("the displacement ran downwards with the load and is turned, so that it is positive");
  }
}

} // namespace

std::string place_in(const TestRecord& record, std::size_t line) {
  const std::string file = line > 0 ? fmt::format("{}:{}", record.file_name, line) : record.file_name;
  return record.specimen.id.empty() ? file : fmt::format("{}: specimen \"{}\"", file, record.specimen.id);
}

std::string lines_text(std::size_t first, std::size_t last) {
  return first == last ? fmt::format("line {}", first) : fmt::format("lines {} to {}", first, last);
}

TestCurve test_curve(const TestRecord& record) {
  if (record.points.size() < fewest_points) {
    throw InputError(fmt::format("{}: {} points; a test needs at least {}", place_in(record), record.points.size(),
                                 fewest_points));
  }
  const SpecimenFacts& facts = record.specimen;
  double per_load = 1;
  double per_length = 1;
  if (record.kind == RecordKind::force_displacement) {
    per_load = 1 / needed(record, cross_section(facts), "the cross-section", "force cannot become stress");
    per_length = 1 / needed(record, facts.height, "the height", "displacement cannot become strain");
  }
  TestCurve curve;
  curve.samples.reserve(record.points.size());
  for (const RecordPoint& point : record.points) {
    curve.samples.push_back({point.along * per_length, point.load * per_load, point.line});
  }
  if (facts.machine_compliance && *facts.machine_compliance != 0) {
    const double compliance = needed(record, facts.machine_compliance, "the machine's compliance", "");
    const double area =
        needed(record, cross_section(facts), "the cross-section", "the compliance cannot be taken off");
    const double height = needed(record, facts.height, "the height", "the compliance cannot be taken off");
    curve.machine_modulus = height / (compliance * area);
  }
  turn_upwards(curve);
  return curve;
}

double stress_level(const std::vector<TestPoint>& samples) {
  double greatest = samples.front().stress;
  for (const TestPoint& sample : samples) {
    greatest = std::max(greatest, sample.stress);
  }
  if (!(greatest > 0)) {
    return greatest;
  }
  // Way before contact is no strain of the specimen.
  const auto touched = std::find_if(samples.begin(), samples.end(), [greatest](const TestPoint& sample) {
    return sample.stress >= contact_share * greatest;
  });
  const double from = touched->strain + level_from;
  const double to = touched->strain + level_to;
  double strain = samples.front().strain;
  double stress = samples.front().stress;
  double area = 0;
  double length = 0;
  for (const TestPoint& sample : samples) {
    if (sample.strain <= strain) {
      continue;
    }
    const double begin = std::max(strain, from);
    const double end = std::min(sample.strain, to);
    if (begin < end) {
      const double slope = (sample.stress - stress) / (sample.strain - strain);
      area += (end - begin) * (stress + slope * ((begin + end) / 2 - strain));
      length += end - begin;
    }
    strain = sample.strain;
    stress = sample.stress;
  }
  const bool reaches = strain >= to && length > 0.5 * (to - from) && area > 0;
  return reaches ? area / length : greatest;
}

} // namespace crushwright
